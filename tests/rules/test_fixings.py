"""Fixings: whoever drills takes the widest view of where a cable may be."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point

from zonelib import Case, judge, load_pack
from zonelib.rules.fixing_rules import avoid_region, hanging_region
from zonelib.site.load import case_from_data

UK = load_pack("uk")

WALL = {
    "id": "W1", "length": 3000, "height": 2400, "thickness": 100, "build": "timber-stud",
    "front": {"internal_corners": [0]},
    "rear": {"external_corners": [3000]},
    "openings": [{"id": "D1", "kind": "window", "x": 1800, "y": 900, "width": 600, "height": 900}],
    "accessories": [
        {"id": "S1", "kind": "socket", "face": "front", "x": 1000, "y": 450, "width": 146, "height": 86},
        {"id": "S2", "kind": "socket", "face": "rear", "x": 1400, "y": 1200, "width": 86, "height": 86,
         "visible": False},
        {"id": "P1", "kind": "radiator", "face": "front", "x": 2600, "y": 400, "width": 600, "height": 500},
    ],
}  # fmt: skip


def case(x: float, y: float, *, penetration: float = 30, diameter: float = 5, **wall: object) -> Case:
    fixing = {"id": "F1", "wall": "W1", "face": "front", "x": x, "y": y,
              "penetration": penetration, "diameter": diameter}  # fmt: skip
    return case_from_data({"pack": "uk", "walls": [{**WALL, **wall}], "fixings": [fixing]}, UK.vocabulary)


def status(*place: float, **changes: float) -> str:
    return judge(case(*place, **changes), UK).findings[-1].status


# Half a drill of 5 mm and half a 20 mm cable make 12.5 mm.
@pytest.mark.outside("fixing", source="two-way caution: half a drill and half a 20 mm cable", grade="D")
@pytest.mark.parametrize(
    ("x", "y", "changes", "expected"),
    [
        (600, 2237.6, {}, "fail"),
        (600, 2237.4, {}, "pass"),
        (600, 2237.4, {"diameter": 6}, "fail"),
        (600, 1500, {"penetration": 49.9}, "pass"),
        (600, 1500, {"penetration": 50.0}, "caution"),
        (1000 + 73 + 12.4, 1500, {}, "fail"),
        (1000 + 73 + 12.6, 1500, {}, "pass"),
        (162.4, 1500, {}, "fail"),
        (162.6, 1500, {}, "pass"),
    ],
)
def test_a_zone_is_widened_by_half_the_drill_and_half_a_cable(
    x: float, y: float, changes: dict[str, float], expected: str
) -> None:
    assert status(x, y, **changes) == expected


@pytest.mark.outside("fixing", source="BS 7671 522.6.202(i), at its widest", grade="D")
def test_a_hidden_accessory_on_the_far_side_of_a_thin_wall_is_feared() -> None:
    assert status(1400, 2000) == "fail"
    assert judge(case(1400, 2000, thickness=100.1), UK).findings[-1].status == "pass"


def test_a_window_hides_no_zone_from_who_drills() -> None:
    assert status(2700, 1200) == "fail"


# DESIGN 4: a thing in a place where it cannot be is a failed finding; an edge is on the wall.
@pytest.mark.outside("fixing", source="worked by hand: plain geometry, no clause", grade="D")
@pytest.mark.parametrize(
    ("x", "y", "reason", "measured"),
    [
        (600, 0, "no cable expected here by the rules", None),
        (600, -0.1, "no wall is there", 0.1),
        (3000.1, 1500, "no wall is there", 0.1),
        (3003, 2404, "no wall is there", 5),
        (2000, 900, "no cable expected here by the rules", None),
        (2000, 900.1, "no wall is there, but window D1", 0.1),
        (2100, 1500, "no wall is there, but window D1", 300),
    ],
)
def test_a_fixing_where_no_wall_is_fails_and_says_so(
    x: float, y: float, reason: str, measured: float | None
) -> None:
    (found,) = judge(case(x, y, accessories=[]), UK).findings
    assert found.reason == reason
    assert found.status == ("pass" if measured is None else "fail")
    if measured is not None:
        assert found.measured == pytest.approx(measured)
        assert (found.limit, found.operator, found.unit, found.clause) == (0.0, "<=", "mm", "")


def test_a_doorway_has_no_wall_at_the_floor_either() -> None:
    door = {"id": "D2", "kind": "door", "x": 400, "y": 0, "width": 800, "height": 2000}
    (found,) = judge(case(500, 0, accessories=[], openings=[door]), UK).findings
    assert (found.status, found.reason) == ("fail", "no wall is there, but door D2")


def test_a_group_of_fixings_does_not_hang_in_a_window() -> None:
    wall = case(0, 0, accessories=[]).walls[0]
    region = hanging_region(wall, "front", UK, [], diameter=5)
    assert region.distance(Point(2100, 1300)) == pytest.approx(300)


def test_a_radiator_makes_no_zone() -> None:
    assert status(2600, 900) == "pass"


@pytest.mark.outside("fixing", source="usual lengths: a picture nail, a wall plug, a long fixing", grade="C")
@pytest.mark.parametrize(("length", "expected"), [(25, "pass"), (30, "pass"), (60, "caution")])
def test_50_mm_stands_for_the_usual_fixings_and_longer_ones_exist(length: float, expected: str) -> None:
    assert status(600, 1500, penetration=length) == expected


def test_every_answer_tells_how_to_make_sure() -> None:
    assert any("prove dead" in line for line in UK.safety.drill)
    assert "look first" in judge(case(600, 1500), UK).findings[-1].text


@settings(max_examples=60, deadline=None)
@given(x=st.floats(20, 2980), y=st.floats(20, 2380))
def test_the_region_to_avoid_is_where_a_fixing_fails(x: float, y: float) -> None:
    wall = case(0, 0).walls[0]
    region = avoid_region(wall, "front", UK, diameter=5)
    if region.boundary.distance(Point(x, y)) > 0.05:
        assert region.contains(Point(x, y)) == (status(x, y) == "fail")


def test_a_cupboard_hangs_only_where_all_its_screws_are_clear() -> None:
    wall = case(0, 0).walls[0]
    offsets = [(500, 0), (0, -300), (500, -300)]
    region = hanging_region(wall, "front", UK, offsets, diameter=5)
    inside = region.representative_point()
    for dx, dy in [(0, 0), *offsets]:
        assert status(inside.x + dx, inside.y + dy) == "pass"
    assert hanging_region(wall, "front", UK, [(2900, 0)], diameter=5).is_empty
