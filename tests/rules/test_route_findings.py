"""What any route must do, told in full: place, marks, numbers and the words that name them."""

from typing import Any

import pytest

from tests.rules.cases import Data, accessory, judged, one_route, opening
from tests.rules.rooms import case_of, room, round_room
from zonelib import Finding

UP = [(1200, 450), (1200, 2330)]
DOOR = opening("D1", 2000, 0, 800, 2000, kind="door")
HATCH = opening("H1", 1000, 1000, 400, 500, kind="hatch")
TWO = [accessory("S1", 1200, 450), accessory("S2", 2600, 900)]


def of(rule: str, data: Data) -> list[Finding]:
    return [finding for finding in judged(data).findings if finding.rule == rule]


def told(finding: Finding) -> tuple[Any, ...]:
    """Return status, place and numbers to a hundredth; none of these rules has a clause."""
    assert (finding.clause, finding.subject) == ("", "R1")
    where = finding.where
    numbers = (where.from_mm, where.to_mm, finding.measured)
    rounded = (None if one is None else round(one, 2) for one in numbers)
    return finding.status, where.wall, where.room, where.legs, *rounded


def test_a_route_that_joins_nothing_is_said_so() -> None:
    (found,) = of("route-joins", one_route(UP, joins=[]))
    assert told(found) == ("not-applicable", "W1", None, (1,), 0, 1880, None)
    assert (found.limit, found.unit) == (None, "")


def test_a_route_that_reaches_all_it_joins_names_them() -> None:
    bent = [(1200, 450), (2600, 450), (2600, 900)]
    (found,) = of("route-joins", one_route(bent, accessories=TWO, joins=["S1", "S2"]))
    assert told(found) == ("pass", "W1", None, (1, 2), 0, 1850, 0)
    assert (found.limit, found.operator, found.unit) == (0, "<=", "mm")
    assert "S1 and S2" in found.text


def test_a_route_that_misses_one_names_it_and_how_far() -> None:
    """S2 is 86 high at 900, so its foot is at 857: 857 - 450 = 407 above the leg."""
    (found,) = of("route-joins", one_route([(1200, 450), (2600, 450)], accessories=TWO, joins=["S1", "S2"]))
    assert told(found) == ("fail", "W1", None, (1,), 0, 1400, 407)
    assert "407" in found.text
    assert "S2" in found.text
    assert "S1" not in found.text


def test_of_two_missed_the_farther_one_gives_the_number() -> None:
    """Level at 1200: S1's top is at 493, 707 below; S2's at 943, 257 below."""
    (found,) = of("route-joins", one_route([(1200, 1200), (2600, 1200)], accessories=TWO, joins=["S1", "S2"]))
    assert found.measured == 707
    assert "S1 and S2" in found.text


def test_a_route_of_no_length_reaches_what_it_stands_on() -> None:
    (found,) = of("route-joins", one_route([(1200, 450), (1200, 450)]))
    assert told(found) == ("pass", "W1", None, (), None, None, 0)
    (apart,) = of("route-joins", one_route([(1200, 700), (1200, 700)]))
    assert told(apart)[0] == "fail"
    assert told(apart)[-1] == 700 - 493


def test_what_runs_in_a_void_reaches_nothing_on_the_wall() -> None:
    """Through the void over S1, 2400 high: S1's top is at 493, 1907 below where the cable comes out."""
    points = [(1200, 2300), (1200, 2400), (2400, 2400)]
    (found,) = of("route-joins", one_route(points, via=["wall", "ceiling-void"]))
    assert (found.status, found.measured) == ("fail", 2300 - 493)


def test_a_leg_through_an_opening_names_it_and_where() -> None:
    """Level at 1200 from 500 to 1700: the hatch is from 1000 to 1400, so 500 to 900 mm along."""
    (found,) = of("route-on-wall", one_route([(500, 1200), (1700, 1200)], openings=[DOOR, HATCH]))
    assert told(found) == ("fail", "W1", None, (1,), 500, 900, 400)
    assert (found.limit, found.operator, found.unit) == (0, "<=", "mm")
    assert "hatch H1" in found.text
    assert "hatch H1" in found.reason
    assert "D1" not in found.text
    assert "400" in found.text


def test_a_leg_through_two_openings_counts_both_and_what_lies_between_not() -> None:
    """From 500 to 2500 at 1200: 400 mm of the hatch and 500 mm of the door, from 500 to 2000 mm along."""
    (found,) = of("route-on-wall", one_route([(500, 1200), (2500, 1200)], openings=[DOOR, HATCH]))
    assert told(found) == ("fail", "W1", None, (1,), 500, 2000, 900)
    assert "door D1 and hatch H1" in found.text


@pytest.mark.parametrize("x", [1000, 1400])
def test_a_leg_along_the_edge_of_an_opening_is_on_the_wall(x: float) -> None:
    (found,) = of("route-on-wall", one_route([(x, 800), (x, 1800)], openings=[HATCH]))
    assert told(found) == ("pass", "W1", None, (1,), 0, 1000, 0)


def test_a_leg_off_the_wall_says_how_much_of_it() -> None:
    """From 3400 to 3700 on a wall of 3600: 100 mm are off it."""
    (found,) = of("route-on-wall", one_route([(3400, 1200), (3700, 1200)]))
    assert told(found)[:6] == ("fail", "W1", None, (1,), 0, 300)
    assert found.measured == pytest.approx(100, abs=0.002)
    assert "100" in found.text


def test_each_leg_in_a_void_is_told_by_its_number() -> None:
    points = [(600, 450), (600, 2400), (2400, 2380), (2400, 450)]
    (found,) = of("route-in-void", one_route(points, via=["wall", "ceiling-void", "wall"]))
    assert told(found) == ("fail", "W1", None, (2,), None, None, 20)
    assert (found.limit, found.operator, found.unit) == (0, "<=", "mm")
    assert "leg 2 (b to c)" in found.text
    assert "20 mm from the top" in found.text
    assert "ceiling void" in found.text


def test_a_floor_void_is_entered_at_the_foot() -> None:
    points = [(600, 450), (600, 0), (2400, 30), (2400, 450)]
    (found,) = of("route-in-void", one_route(points, via=["wall", "floor-void", "wall"]))
    assert told(found) == ("fail", "W1", None, (2,), None, None, 30)
    assert "30 mm from the foot" in found.text
    assert "floor void" in found.text


def test_in_a_room_the_void_is_told_by_the_room_and_each_wall_s_own_height() -> None:
    low = room(walls=[{"number": 3, "height": 2000}])
    points = [(1500, 1200), (1500, 2400), (8500, 2400), (8500, 1200)]
    (found,) = of(
        "route-in-void", case_of(low, routes=[round_room(points, via=["wall", "ceiling-void", "wall"])])
    )
    assert told(found) == ("fail", None, "A", (2,), None, None, 400)


def test_a_cable_that_stands_out_of_the_wall_says_on_which_face_and_how_far() -> None:
    """Six mm thick at 97 mm in a wall of 100: 3 mm out of the rear."""
    (found,) = of("depth-in-wall", one_route(UP, depth=97, thickness=100))
    assert (found.status, found.where.face, found.measured, found.limit, found.operator) == (
        "fail", "rear", -3, 0, ">=",
    )  # fmt: skip
    assert found.where.legs == (1,)
    for words in ("3 mm out of the rear face", "100 mm thick", "6 mm"):
        assert words in found.text


def test_a_leg_that_enters_an_opening_by_less_than_the_tolerance_twice_over_is_on_the_wall() -> None:
    """The hatch begins at 1000; its edge counts as wall, and so does what the one tolerance makes of it."""
    (found,) = of("route-on-wall", one_route([(500, 1200), (1000.0015, 1200)], openings=[HATCH]))
    assert told(found) == ("pass", "W1", None, (1,), 0, 500, 0)
    assert found.text == "On leg 1 (a to b) the cable lies on the wall and crosses no opening."


def test_a_void_over_one_wall_counts_level_and_the_next_leg_goes_on_from_there() -> None:
    """Up 1950, across 1800, down 1950."""
    points = [(600, 450), (600, 2400), (2400, 2400), (2400, 450)]
    found = of("depth-in-wall", one_route(points, via=["wall", "ceiling-void", "wall"]))
    assert [told(one)[3:6] for one in found] == [((1,), 0, 1950), ((3,), 3750, 5700)]


def test_a_void_over_a_room_counts_straight_across_its_plan() -> None:
    """From 1500 up the west wall to 1000 along the north one: 1500 one way and 1000 the other."""
    points = [(1500, 1200), (1500, 2400), (4000, 2400), (4000, 1200)]
    found = of(
        "depth-in-wall", case_of(room(), routes=[round_room(points, via=["wall", "ceiling-void", "wall"])])
    )
    assert [told(one)[1:6] for one in found] == [
        ("A.1", "A", (1,), 0, 1200),
        ("A.2", "A", (3,), 3002.78, 4202.78),
    ]


def test_a_leg_of_no_length_in_a_room_keeps_its_number_and_is_not_judged() -> None:
    points = [(3500, 1200), (3500, 1200), (3900, 1200), (3900, 1200)]
    found = of("depth-in-wall", case_of(room(), routes=[round_room(points)]))
    assert [told(one)[1:6] for one in found] == [("A.2", "A", (2,), 0, 400)]


def test_a_route_of_no_length_in_a_room_is_on_the_wall_it_starts_at() -> None:
    (found,) = of("route-joins", case_of(room(), routes=[round_room([(8200, 1200), (8200, 1200)])]))
    assert told(found) == ("not-applicable", "A.3", "A", (), None, None, None)
