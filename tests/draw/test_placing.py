"""Labels never lie on each other, on an accessory or on a number; what finds no room becomes a note."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.draw.walls import any_case, case_of, route, scene_of, socket, wall
from zonelib.draw.placing import Placer, Spot, spread
from zonelib.draw.scene import Scene
from zonelib.draw.shapes import Area, Box, Disc, Text, around
from zonelib.site.model import Case


def boxes(scene: Scene) -> list[tuple[str, Box]]:
    texts = [(text.text, text.box) for text in scene.texts if not text.css.startswith("text-number")]
    numbers = [
        (f"number {disc.n}", disc.box)
        for css in ("number", "number-whole")
        for disc in scene.of(css)
        if isinstance(disc, Disc) and disc.part == "findings"
    ]
    return texts + numbers


def accessories(scene: Scene) -> list[Box]:
    shapes = [shape for shape in scene.shapes if isinstance(shape, Area) and shape.part == "accessories"]
    rings = [shape.rings[0] for shape in shapes]
    return [Box(ring[0][0], ring[0][1], ring[2][0], ring[2][1]) for ring in rings]


def collisions(scene: Scene) -> list[tuple[str, str]]:
    named = boxes(scene)
    found = [
        (a, b) for (a, one), (b, other) in itertools.combinations(named, 2) if one.grown(-0.01).meets(other)
    ]
    found += [
        (a, "an accessory")
        for a, box in named
        for thing in accessories(scene)
        if box.grown(-0.01).meets(thing)
    ]
    found += [(a, "the paper's edge") for a, box in named if not scene.view.holds(box.grown(-0.01))]
    return found


@settings(max_examples=60)
@given(case=any_case(), face=st.sampled_from(["front", "rear"]))
def test_no_two_labels_collide(case: Case, face: str) -> None:
    scene = scene_of(case, face)  # type: ignore[arg-type]
    assert collisions(scene) == []


def test_a_wall_full_of_accessories_says_below_what_found_no_room() -> None:
    things = [
        socket(f"S{row}{column}", 80 + 150 * column, 60 + 92 * row) for row in range(8) for column in range(8)
    ]
    case = case_of({"walls": [wall(length=1300, height=900, accessories=things)]})
    scene = scene_of(case)
    assert collisions(scene) == []
    said = " ".join([text.text for text in scene.texts])
    assert [thing["id"] for thing in things if thing["id"] not in said] == []
    assert len(scene.notes) > 5


def test_a_number_and_its_neighbours_stay_apart_on_one_short_stretch() -> None:
    case = case_of(
        {
            "walls": [wall(build="masonry")],
            "routes": [route([(1200, 450), (1500, 700)], depth=90, rcd={"ma": 100})],
        }
    )
    scene = scene_of(case)
    assert len([disc for disc in scene.of("number") if disc.part == "findings"]) >= 1
    assert collisions(scene) == []


def test_the_same_case_gives_the_same_drawing() -> None:
    case = case_of({"walls": [wall()], "routes": [route([(1200, 450), (300, 2330)])]})
    assert scene_of(case) == scene_of(case)


def test_the_cheapest_free_spot_wins_and_is_taken() -> None:
    placer = Placer(Box(0, 0, 1000, 1000))
    placer.block(around(500, 500, 300, 300))
    text = Text(css="text", text="S1", x=0, y=0, size=50)
    spots = [Spot(500, 500), Spot(800, 800, cost=2.0), Spot(200, 200, cost=1.0), Spot(990, 990)]
    first = placer.place(text, spots)
    assert first is not None
    assert (first[0].x, first[0].y) == (200, 200)
    second = placer.place(text, spots)
    assert second is not None
    assert (second[0].x, second[0].y) == (800, 800)
    assert placer.place(text, spots) is None


def test_a_label_keeps_off_a_route_where_it_can() -> None:
    placer = Placer(Box(0, 0, 1000, 1000))
    placer.avoid(((0, 500), (1000, 500)), 4.0)
    placed = placer.place(
        Text(css="text", text="S1", x=0, y=0, size=50), [Spot(500, 500), Spot(500, 700, cost=3)]
    )
    assert placed is not None
    assert placed[0].y == 700


@given(
    wanted=st.lists(st.floats(0, 5000), min_size=1, max_size=30).map(sorted),
    size=st.floats(10, 400),
)
def test_spread_keeps_order_and_room(wanted: list[float], size: float) -> None:
    places = spread(wanted, [size] * len(wanted))
    gaps = [after - before for before, after in itertools.pairwise(places)]
    assert all(gap >= size - 1e-6 for gap in gaps)
    if all(after - before >= size for before, after in itertools.pairwise(wanted)):
        assert places == pytest.approx(wanted)
