"""A cut through a wall: layers, depths, chase and words, to scale."""

from typing import Any

import pytest

from zonelib.draw import svg
from zonelib.draw.section import section_scene
from zonelib.draw.shapes import Area, Line
from zonelib.rules.engine import judge
from zonelib.rules.pack import load_pack
from zonelib.site.load import case_from_data

PACK = load_pack("uk")


def case(**changes: Any) -> dict[str, Any]:
    wall = {"id": "W", "length": 3000, "height": 2400, "thickness": 126, "build": "masonry"}
    route = {
        "id": "R", "wall": "W", "rcd": {"ma": 30}, "cable": {"width": 10.3, "thickness": 6.0},
        "points": [[1000, 2400], [1000, 500]], "depth": 25,
    }  # fmt: skip
    wall.update(changes.pop("wall", {}))
    route.update(changes.pop("route", {}))
    return {"pack": "uk", "walls": [wall], "routes": [route], **changes}


def scene(*, judged: bool = False, **changes: Any) -> Any:
    made = case_from_data(case(**changes), PACK.vocabulary)
    found = judge(made, PACK).findings if judged else ()
    return section_scene(made, "W", PACK, findings=found)


def span(drawn: Any, css: str) -> tuple[float, float]:
    (area,) = [one for one in drawn.of(css) if isinstance(one, Area)]
    xs = [x for x, _ in area.rings[0]]
    return min(xs), max(xs)


def test_the_cable_lies_at_its_depth_from_the_front_or_from_the_rear() -> None:
    assert span(scene(), "drawn") == (25.0, 31.0)
    assert span(scene(route={"depth_from": "rear"}), "drawn") == (95.0, 101.0)


def test_a_conduit_is_drawn_at_its_own_size() -> None:
    assert span(scene(route={"protection": "earthed-steel-conduit"}), "drawn") == (25.0, 45.0)


def test_the_chase_is_cut_from_the_nearer_face_to_the_back_of_the_cable() -> None:
    assert span(scene(), "cut") == (0.0, 31.0)
    assert span(scene(route={"depth_from": "rear"}), "cut") == (95.0, 126.0)


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ([[1000, 2400], [1000, 500]], "deepest upright chase: 33.3 mm in the leaf"),
        ([[200, 500], [1000, 500]], "deepest level chase: 16.7 mm in the leaf"),
    ],
)
def test_the_limit_of_the_chase_is_written_beside_its_line(points: Any, words: str) -> None:
    """Grade P: a third upright and a sixth level, of a leaf of 126 - 13 - 13 = 100 mm."""
    assert words in [text.text for text in scene(route={"points": points}).texts]


def test_a_slanting_chase_and_a_stud_wall_show_no_limit() -> None:
    for drawn in (
        scene(route={"points": [[1000, 2400], [1500, 500]]}),
        scene(wall={"build": "timber-stud"}),
    ):
        assert [text.text for text in drawn.texts if "deepest" in text.text] == []
        assert drawn.of("cut") == ()


def test_both_depths_stand_below_and_in_the_words() -> None:
    drawn = scene()
    assert {"25", "95"} <= {text.text for text in drawn.texts}
    assert "25 mm below the front and 95 mm below the rear" in drawn.description
    assert "126 mm thick" in drawn.description


def test_lines_mark_fifty_from_each_face_where_the_wall_is_thick_enough() -> None:
    def marks(thickness: float) -> list[float]:
        lines = [one for one in scene(wall={"thickness": thickness}).of("corner") if isinstance(one, Line)]
        return sorted(line.points[0][0] for line in lines)

    assert marks(126) == [50.0, 76.0]
    assert marks(100) == [50.0, 50.0]


def test_a_failing_cable_is_dashed_and_said_to_fail() -> None:
    failing = scene(judged=True, route={"rcd": {"ma": 100}})
    assert span(failing, "cut-fails") == (25.0, 31.0)
    assert "cable, fails" in [text.text for text in failing.texts]
    assert "it fails" in failing.description


def test_metal_studs_are_drawn_and_named() -> None:
    drawn = scene(wall={"build": "metal-stud"})
    assert len(drawn.of("covering")) == 1
    assert "metal stud" in [text.text for text in drawn.texts]


@pytest.mark.parametrize(("face", "tip"), [("front", 40.0), ("rear", 86.0)])
def test_a_screw_goes_in_from_its_face(face: str, tip: float) -> None:
    screw = {"id": "F1", "wall": "W", "face": face, "x": 1000, "y": 900, "penetration": 40, "diameter": 5}
    drawn = scene(fixings=[screw])
    shank = drawn.of("fixing")[0]
    assert isinstance(shank, Line)
    assert shank.points[1][0] == tip
    assert f"Screw F1 goes 40 mm into the {face} face." in drawn.description


def test_every_text_is_within_the_paper_and_the_pen_can_write_it() -> None:
    for thickness in (60, 126, 400):
        drawn = scene(wall={"thickness": thickness})
        assert [text.text for text in drawn.texts if not drawn.view.holds(text.box)] == []
        assert svg(drawn).count("<svg") == 1
