"""What a case says is read as DESIGN 4 puts it: defaults, one value for all legs, and the one tolerance."""

import doctest
import importlib

import pytest
import shapely

from tests.rules.cases import accessory, made, one_route, opening, wall
from zonelib.site.faults import Fault, key_path, nearest
from zonelib.site.geometry import accessory_box, face_outline, opening_box, solid_area
from zonelib.site.model import Case, other_side
from zonelib.site.tolerance import above, below, same

UP = [(1200, 450), (1200, 2400)]
BENT = [*UP, (300, 2400)]


def test_what_a_file_may_leave_out() -> None:
    # DESIGN 4: every default of a wall, an accessory and a route.
    data = one_route(UP)
    data["routes"] = [
        {"id": "R1", "wall": "W1", "cable": {"width": 10, "thickness": 6}, "points": UP, "depth": 20}
    ]
    case = made(data)
    one, route, point = case.walls[0], case.routes[0], case.walls[0].accessories[0]
    assert one.front == one.rear
    assert (one.front.internal_corners, one.front.external_corners, one.front.finish) == ((), (), 13)
    assert (one.chased_leaf, one.openings) == (174, ())
    assert (point.locatable_from_reverse, point.visible) == (None, True)
    assert (route.joins, route.supply, route.rcd, route.outer) == ((), "lv", None, None)
    assert (route.depth_from, route.protection, route.depth) == ("front", ("none",), (20,))


def test_an_rcd_with_only_its_rating_sits_at_the_origin_and_is_not_delayed() -> None:
    rcd = made(one_route(UP, rcd={"ma": 30})).routes[0].rcd
    assert rcd is not None
    assert (rcd.at, rcd.delayed) == ("origin", False)


def test_one_value_stands_for_every_leg() -> None:
    route = made(one_route(BENT, depth=20, protection="steel-plate")).routes[0]
    assert (route.depth, route.protection) == ((20, 20), ("steel-plate", "steel-plate"))
    each = made(one_route(BENT, depth=[20, 30], protection=["none", "steel-plate"])).routes[0]
    assert (each.depth, each.protection) == ((20, 30), ("none", "steel-plate"))


def test_joins_may_name_an_accessory_of_another_wall() -> None:
    data = one_route(UP, joins=["S2"])
    data["walls"].append(wall(id="W2", accessories=[accessory("S2", 500, 450)]))
    assert made(data).routes[0].joins == ("S2",)


def test_a_height_is_a_level_top() -> None:
    level = made(one_route(UP)).walls[0]
    assert list(level.profile) == [(0, 2400), (3600, 2400)]
    sloping = made(one_route(UP, top=[(0, 2400), (3600, 1500)])).walls[0]
    assert list(sloping.profile) == [(0, 2400), (3600, 1500)]
    assert face_outline(sloping).area == pytest.approx(3600 * 1950)


def test_the_areas_of_a_wall() -> None:
    door = opening("D1", 2000, 0, 800, 2000, kind="door")
    one = made(one_route(UP, openings=[door])).walls[0]
    assert opening_box(one.openings[0]).bounds == (2000, 0, 2800, 2000)
    assert accessory_box(one.accessories[0]).bounds == (1127, 407, 1273, 493)
    assert solid_area(one).area == pytest.approx(3600 * 2400 - 800 * 2000)
    assert face_outline(one, grown=1).equals(shapely.box(-1, -1, 3601, 2401))


def test_openings_may_touch_and_reach_the_wall_s_edges() -> None:
    pair = [opening("D1", 0, 0, 800, 2400, kind="door"), opening("O1", 800, 900, 600, 600)]
    assert len(made(one_route(UP, openings=pair)).walls[0].openings) == 2


def test_an_accessory_may_stand_before_a_door() -> None:
    # DESIGN 4 asks only that it lies on its wall.
    door = [opening("D1", 1000, 0, 800, 2000, kind="door")]
    assert made(one_route(UP, openings=door)).walls[0].accessories


@pytest.mark.parametrize(
    ("value", "limit", "verdict"),
    [
        (50, 50, "same"),
        (50.001, 50, "same"),
        (49.999, 50, "same"),
        (50.0011, 50, "above"),
        (49.9989, 50, "below"),
        (0.07 * 2500, 175, "same"),
        (0.1 + 0.2, 0.3, "same"),
    ],
)
def test_values_within_the_tolerance_are_equal(value: float, limit: float, verdict: str) -> None:
    told = {"above": above(value, limit), "below": below(value, limit), "same": same(value, limit)}
    assert [name for name, holds in told.items() if holds] == [verdict]


def test_a_key_path_names_things_by_their_ids() -> None:
    data = {"walls": [{"id": "W1", "openings": [{"width": 1}, {"id": ""}]}]}
    assert key_path(data, ("walls", 0, "openings", 0, "width")) == "walls.W1.openings.#1.width"
    assert key_path(data, ("walls", 0, "openings", 1)) == "walls.W1.openings.#2"
    assert key_path(data, ("walls", 7, "x")) == "walls.#8.x"
    assert key_path(data, ()) == "the file"


def test_only_a_close_name_is_offered() -> None:
    assert nearest("sockets", ["socket", "switch"]) == " (did you mean socket?)"
    assert nearest("lamp", ["socket", "switch"]) == ""


def test_a_fault_is_one_printable_line_of_bounded_length() -> None:
    told = str(Fault("a\nb", "\ud800\x1b[2J", "x" * 10_000))
    assert told.isprintable()
    assert told.startswith(r"a\nb: found \ud800\x1b[2J; allowed: xxx")
    assert len(told) < 1200
    assert told.encode("utf-8")


def test_a_wall_is_found_by_its_id() -> None:
    case = made(one_route(UP))
    assert case.wall("W1") is case.walls[0]
    assert other_side(other_side("front")) == "front"


def test_a_case_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="frozen"):
        made(one_route(UP)).pack = "de"  # type: ignore[misc]
    assert isinstance(made(one_route(UP)), Case)


@pytest.mark.parametrize("name", ["zonelib.site.tolerance", "zonelib.rules.words", "zonelib.exercise.handin"])
def test_the_examples_in_docstrings_hold(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0
    assert result.failed == 0
