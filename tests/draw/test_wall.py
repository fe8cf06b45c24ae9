"""What a drawing holds: everything in the case, each with its words, and nothing that is switched off."""

from collections.abc import Collection

import pytest
from shapely import Point

from tests.draw.walls import SLANT, UK, case_of, route, scene_of, socket, wall
from zonelib import load_pack
from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.draw.shapes import Area, Dots, Line
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding, Place
from zonelib.site.load import case_from_data

DOOR = {"id": "D1", "kind": "door", "x": 2600, "y": 0, "width": 826, "height": 2040}


def words(scene: Scene) -> list[str]:
    return [text.text for text in scene.texts]


def lines(scene: Scene, css: str) -> list[Line]:
    return [shape for shape in scene.of(css) if isinstance(shape, Line) and shape.part != "legend"]


def areas(scene: Scene, css: str) -> list[Area]:
    return [shape for shape in scene.of(css) if isinstance(shape, Area) and shape.part != "legend"]


def test_zones_are_labelled_with_reason_and_size() -> None:
    said = words(scene_of(case_of({"walls": [wall(front={"internal_corners": [0]})]})))
    assert {"top of the wall · 150", "corner · 150", "S1 · 146 wide", "S1 · 86 high"} <= set(said)


def test_bands_that_begin_off_an_edge_are_labelled_from_where_to_where() -> None:
    """Where a pack has bands along the floor and beside openings, each has its own name."""
    pack = load_pack("de")
    room = wall(
        openings=[{**DOOR, "kind": "window", "y": 1350, "height": 500}], front={"internal_corners": [0]}
    )
    case = case_from_data({"pack": "de", "walls": [room]}, pack.vocabulary)
    said = words(wall_scene(case, "W1", "front", pack))
    upright = {text.text for text in wall_scene(case, "W1", "front", pack).texts if text.turned}
    assert {"beside D1", "corner · 100 to 300"} <= upright
    assert "150 to 450 high" not in upright
    wanted = {"top of the wall · 150 to 450", "150 to 450 high", "beside D1", "corner · 100 to 300"}
    assert wanted <= set(said)


def test_zones_end_at_openings() -> None:
    scene = scene_of(
        case_of({"walls": [wall(openings=[DOOR])], "routes": [route([(1200, 450), (1200, 2330)])]})
    )
    strip = next(shape for shape in areas(scene, "zone") if "level with" in shape.alt)
    assert max(x for x, _ in strip.rings[0]) == 2600


def test_a_strip_that_does_not_serve_the_cable_is_outlined_with_a_word() -> None:
    light = {"id": "L1", "kind": "switch", "face": "front", "x": 2900, "y": 1200, "width": 86, "height": 86}
    data = {"walls": [wall(accessories=[socket(), light])], "routes": [route([(1200, 450), (1200, 2330)])]}
    scene = scene_of(case_of(data))
    assert {shape.name for shape in areas(scene, "other-zone")} == {"L1"}
    assert {shape.name for shape in areas(scene, "zone")} == {"S1", "top"}
    assert "L1's zone: not for this cable, expect one here" in words(scene)
    assert "zone that does not serve this cable: expect one here all the same" in words(scene)


def test_an_accessory_behind_a_thin_wall_is_expected_even_where_nobody_can_tell_its_place() -> None:
    behind = socket("B1", 2500, face="rear")
    data = {"walls": [wall(thickness=100, accessories=[socket(), behind])]}
    scene = scene_of(case_of({**data, "routes": [route([(1200, 450), (1200, 2330)])]}))
    assert {shape.name for shape in areas(scene, "other-zone")} == {"B1"}
    assert "B1 socket, on the rear" in words(scene)
    assert [shape.name for shape in areas(scene, "accessory-behind")] == ["B1"]


def test_the_failing_stretch_is_where_the_finding_says() -> None:
    finding = judge(SLANT, UK).failures[0]
    (line,) = lines(scene_of(SLANT), "cable-fails")
    low, high = (Point(1200, 450).distance(Point(end)) for end in (line.points[0], line.points[-1]))
    assert (low, high) == pytest.approx((finding.where.from_mm, finding.where.to_mm), abs=0.01)
    assert line.n == 1
    assert "leg 1 (a to b)" in line.alt


def test_numbers_follow_the_order_of_all_failed_findings() -> None:
    case = case_of({"walls": [wall()], "routes": [route([(1200, 450), (300, 2330)], rcd={"ma": 100})]})
    failed = judge(case, UK).failures
    assert [finding.rule for finding in failed] == ["wall-zone", "wall-rcd"]
    ahead = Finding("joist-cover", "", "fail", "H1", Place(joist="J1"), None, None, "<=", "", "r", "t")
    scene = wall_scene(case, "W1", "front", UK, findings=[ahead, *failed])
    assert [shape.n for shape in lines(scene, "cable-fails")] == [2]
    assert [shape.n for shape in scene.of("number-whole") if shape.part == "findings"] == [3]
    assert "a rule that the cable as a whole does not meet" in words(scene)


def test_a_fail_on_the_other_face_is_said_not_drawn() -> None:
    case = case_of({"walls": [wall()], "routes": [route([(1200, 450), (300, 2330)], depth_from="rear")]})
    (finding,) = judge(case, UK).failures
    assert finding.where.face == "rear"
    front = scene_of(case)
    assert lines(front, "cable-fails") == []
    assert len(lines(front, "cable-deep")) == 1
    assert "Number 1 lies on the rear face: see the picture of that face." in words(front)
    assert len(lines(scene_of(case, "rear"), "cable-fails")) == 1


def test_two_failures_on_one_stretch_keep_two_numbers_and_one_line() -> None:
    points = [(1200, 450), (300, 2330)]
    case = case_of({"walls": [wall(build="masonry")], "routes": [route(points, depth=40)]})
    assert [finding.rule for finding in judge(case, UK).failures] == ["wall-zone", "chase-line"]
    scene = scene_of(case)
    assert sorted(shape.n or 0 for shape in scene.of("number") if shape.part == "findings") == [1, 2]
    drawn = sum(
        Point(line.points[0]).distance(Point(line.points[-1])) for line in lines(scene, "cable-fails")
    )
    assert drawn == pytest.approx(Point(points[0]).distance(Point(points[1])), abs=0.1)
    assert lines(scene, "cable") == []


def test_points_are_lettered_and_legs_in_a_covering_look_different() -> None:
    points = [(1200, 450), (300, 450), (300, 2330)]
    covered = route(points, protection=["none", "earthed-steel-conduit"])
    scene = scene_of(case_of({"walls": [wall()], "routes": [covered]}))
    assert {"a", "b", "c"} <= set(words(scene))
    (covering,) = lines(scene, "covering")
    assert list(covering.points) == [(300, 450), (300, 2330)]
    assert "in a covering that counts" in words(scene)


def test_two_routes_put_their_id_before_the_letters_and_say_whose_zone_it_is() -> None:
    things = [socket("S1", 900), socket("S2", 2700)]
    routes = [route([(900, 450), (900, 2330)]), route([(2700, 450), (2700, 2330)], id="R2", joins=["S2"])]
    case = case_of({"walls": [wall(accessories=things)], "routes": routes})
    assert {"R1 a", "R2 b", "S2 · 146 wide · for R2"} <= set(words(scene_of(case)))
    only = words(scene_of(case, routes=["R2"]))
    assert "S2 · 146 wide" in only
    assert "R1 a" not in only


def test_the_rear_is_mirrored_and_says_so() -> None:
    data = {"walls": [wall(rear={"internal_corners": [0]})], "routes": [route([(1200, 450), (300, 2330)])]}
    front, rear = scene_of(case_of(data)), scene_of(case_of(data), "rear")
    mirrored = {tuple((3600 - x, y) for x, y in line.points) for line in lines(front, "cable-fails")}
    assert {tuple(line.points) for line in lines(rear, "cable-deep")} == {((2400, 450), (3300, 2330))}
    assert len(mirrored) == 1
    (corner,) = [shape for shape in areas(rear, "zone") if shape.name == "corner"]
    assert sorted({x for x, _ in corner.rings[0]}) == [3450, 3600]
    ruler = {text.text: text.x for text in rear.texts if text.part == "dimensions" and text.y < 0}
    assert ruler["0"] > ruler["1,200"] > ruler["3,600"]
    assert any("Drawn mirrored" in line for line in words(rear))
    assert not any("mirrored" in line for line in words(front))


@pytest.mark.parametrize("top", [[[0, 900], [3600, 2400]], [[0, 2400], [1800, 1500], [3600, 2300]]])
def test_outline_and_top_zone_follow_the_wall(top: list[list[float]]) -> None:
    sloping = wall(top=top)
    del sloping["height"]
    scene = scene_of(case_of({"walls": [sloping]}))
    (outline,) = areas(scene, "outline")
    assert {tuple(point) for point in top} <= set(outline.rings[0])
    (band,) = [shape for shape in areas(scene, "zone") if shape.name == "top"]
    assert {(x, y - 150) for x, y in map(tuple, top)} <= set(band.rings[0])
    assert scene.height == max(y for _, y in top)


def test_dots_stay_within_the_zones_and_off_the_labels() -> None:
    scene = scene_of(case_of({"walls": [wall()]}))
    (dots,) = [shape for shape in scene.of("dots") if isinstance(shape, Dots) and shape.part == "zones"]
    assert len(dots.points) > 100
    assert all(y > 2250 or 1127 < x < 1273 or 407 < y < 493 for x, y in dots.points)
    label = next(text.box for text in scene.texts if text.text == "top of the wall · 150")
    assert not [1 for x, y in dots.points if label.left < x < label.right and label.bottom < y < label.top]


def test_the_legend_lists_only_what_is_there() -> None:
    legend = {text.text for text in scene_of(case_of({"walls": [wall()]})).texts if text.part == "legend"}
    assert legend == {"1 m", "zone: a cable is expected here"}


@pytest.mark.parametrize(
    ("off", "gone"),
    [
        ({"zones"}, {"zone", "other-zone", "dots", "text-zone"}),
        ({"routes"}, {"cable", "cable-fails", "point", "number"}),
        ({"findings"}, {"cable-fails", "number"}),
        ({"points"}, {"point"}),
        ({"accessories"}, {"accessory"}),
        ({"title"}, {"text-title"}),
        ({"dimensions"}, {"rule"}),
        ({"scale"}, {"scale"}),
    ],
)
def test_a_part_that_is_off_is_gone_from_picture_and_words(
    off: Collection[str], gone: Collection[str]
) -> None:
    assert [
        css for css in gone if css not in {shape.css for shape in scene_of(SLANT).shapes} | {"other-zone"}
    ] == []
    scene = scene_of(SLANT, show=EVERY_PART - set(off))
    assert gone.isdisjoint({shape.css for shape in scene.shapes})  # type: ignore[attr-defined]
    if "zones" in off:
        assert "Zone" not in scene.description
    if off & {"routes", "findings"}:  # type: ignore[operator]
        assert "Number 1" not in scene.description


def test_only_the_bare_wall_is_left_when_everything_is_off() -> None:
    scene = scene_of(SLANT, show=())
    assert {shape.css for shape in scene.shapes} == {"paper", "face", "outline"}


def test_edition_and_every_safety_word_stand_at_the_foot() -> None:
    foot = " ".join(text.text for text in scene_of(SLANT).texts if text.part == "safety")
    for sentence in (UK.stated_edition, UK.safety.aid, UK.safety.lay, *UK.safety.drill):
        assert sentence in foot


def test_the_text_alternative_says_what_the_picture_shows() -> None:
    said = scene_of(SLANT).description
    assert "3,600 mm long, 2,400 mm high, 140 mm thick." in said
    assert "S1 socket, front face: centre at x 1,200, 450 high, size 146 × 86." in said
    assert "Zone: top of the wall · 150, within 150 mm of the top of the wall." in said
    assert "Route R1: a at 1,200, 450; b at 300, 2,330." in said
    assert "Number 1: route R1, leg 1 (a to b)" in said


def test_a_point_far_off_the_wall_is_noted_and_keeps_the_picture_readable() -> None:
    scene = scene_of(
        case_of({"walls": [wall()], "routes": [route([(1200, 450), (1200, 2300), (90000, 2300)])]})
    )
    assert scene.view.width < 2 * 3600
    assert "Point c lies outside this picture, at 90000, 2300." in words(scene)
    assert {line.n for line in lines(scene, "cable-fails")} == {1}


def test_what_is_out_of_sight_can_be_left_out() -> None:
    case = case_of({"walls": [wall(accessories=[socket(), socket("S2", 3000, visible=False)])]})
    assert "S2 socket, out of sight" in words(scene_of(case))
    hidden = scene_of(case, show=EVERY_PART - {"hidden", "zones"})
    assert not any("S2" in line for line in [*words(hidden), hidden.description])
