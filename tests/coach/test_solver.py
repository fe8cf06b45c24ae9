"""The shortest run: held against every run there is on small walls, and against the engine's word."""

import math
import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.coach.brute import compared, drawn
from tests.rules.cases import accessory, one_route, opening
from tests.rules.rooms import case_of, own, room, round_room
from zonelib import judge, load_pack
from zonelib.coach.solver import Blocked, Cost, Solution, search_of, shortest_route
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Route

UK = load_pack("uk")
TOP = (300.0, 2400.0)
DOORS = [opening("D1", 600, 0, 826, 2040, kind="door"), opening("D2", 3000, 0, 500, 2040, kind="door"),
         opening("H1", 1700, 1100, 1000, 700, kind="hatch")]  # fmt: skip


def read(data: dict[str, Any]) -> tuple[Case, Route]:
    case = case_from_data(data, UK.vocabulary)
    return case.model_copy(update={"routes": ()}), case.routes[0]


def solved(data: dict[str, Any], **options: Any) -> Solution | Blocked:
    case, route = read(data)
    return shortest_route(case, UK, route, **options)


def solution(data: dict[str, Any], **options: Any) -> Solution:
    found = solved(data, **options)
    assert isinstance(found, Solution)
    return found


def test_down_the_strip_from_straight_above() -> None:
    """Worked by hand: from the top at 1200 straight down to the socket's upper edge at 493."""
    found = solution(one_route([(0, 0), (1, 0)]), start=(1200, 2400))
    assert list(found.route.points) == [(1200, 2400), (1200, 493)]
    assert found.length == 1907
    assert found.verdict.passed


def test_along_the_top_and_down_the_nearest_edge_of_the_strip() -> None:
    """Worked by hand: half of the 10 mm cable stays inside the strip, whose left edge is at 1127."""
    found = solution(one_route([(0, 0), (1, 0)]), start=TOP)
    assert found.length == pytest.approx((1132 - 300) + (2400 - 493), abs=0.01)
    assert len(found.route.points) == 4
    assert found.verdict.passed


def test_one_search_answers_for_several_costs() -> None:
    """A room's shortest length leaves bends out, its way counts them: the graph is made once for both."""
    case, route = read(one_route([(0, 0), (1, 0)], accessories=[accessory("S1", 2200, 950)]))
    search = search_of(case, UK, route, start=TOP)
    for cost in (Cost(bend=0.0), Cost(), Cost(bend=400.0)):
        assert search.cheapest(cost) == shortest_route(case, UK, route, start=TOP, cost=cost)


def test_where_doors_and_a_hatch_cut_the_strips_there_is_no_run_and_the_cut_is_shown() -> None:
    data = one_route([(0, 0), (1, 0)], openings=DOORS, accessories=[accessory("S1", 2200, 950)])
    found = solved(data, start=(1000, 2400))
    assert isinstance(found, Blocked)
    assert found.missed == ("S1",)
    assert found.gap > 0
    assert found.cut
    assert math.dist(*found.cut) == pytest.approx(found.gap)


def test_with_a_covering_there_is_one_and_it_is_covered_only_where_no_zone_serves() -> None:
    data = one_route([(0, 0), (1, 0)], openings=DOORS, accessories=[accessory("S1", 2200, 950)])
    found = solution(data, start=(1000, 2400), cost=Cost(covering=1.0), covering="steel-plate")
    assert found.verdict.passed
    assert set(found.route.protection) == {"none", "steel-plate"}
    bare = found.route.model_copy(update={"protection": ("none",) * len(found.route.protection)})
    case, _ = read(data)
    assert not judge(case.model_copy(update={"routes": (bare,)}), UK).passed


def test_a_dearer_bend_makes_fewer_bends() -> None:
    data = one_route([(0, 0), (1, 0)], accessories=[accessory("S1", 1200, 450), accessory("S2", 2600, 900)],
                     joins=["S1", "S2"])  # fmt: skip
    few, many = (solution(data, start=TOP, cost=Cost(bend=bend)) for bend in (5000.0, 0.0))
    assert len(few.route.points) <= len(many.route.points)
    assert few.length >= many.length - 0.01


def test_round_the_corner_of_a_room_or_through_the_void() -> None:
    data = case_of(
        room(walls=[own(1, accessory("S1", 1500, 450)), own(3, accessory("S2", 1500, 450))]),
        routes=[round_room([(0, 0), (1, 0)], joins=["S1", "S2"])],
    )
    around, over = solution(data), solution(data, voids=("ceiling-void",))
    assert around.verdict.passed
    assert over.verdict.passed
    assert "ceiling-void" in over.route.via
    assert over.length < around.length


def test_over_the_end_of_the_row_when_that_is_shorter() -> None:
    data = case_of(
        room(walls=[own(1, accessory("S1", 400, 450)), own(4, accessory("S2", 3600, 450))]),
        routes=[round_room([(0, 0), (1, 0)], joins=["S1", "S2"])],
    )
    found = solution(data)
    assert found.verdict.passed
    assert found.length < 6000


@settings(max_examples=12)
@given(st.integers(), st.booleans())
def test_no_run_of_two_bends_is_cheaper(seed: int, corner: bool) -> None:
    """Brute force, as `python -m tests.coach.brute 200` does for 200 walls."""
    wall = replace(drawn(random.Random(seed)), corner=corner)
    assert compared(wall) in ("equal", "beyond", "none")


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.integers(200, 3400), st.integers(200, 1900)), min_size=1, max_size=3),
    st.integers(0, 3600), st.sampled_from([75, 100, 140, 215]), st.booleans(),
)  # fmt: skip
def test_whatever_is_found_passes_and_is_no_shorter_than_the_crow_flies(
    places: list[tuple[int, int]], start: int, thickness: int, doors: bool
) -> None:
    sockets = [accessory(f"S{n}", x, y, locatable_from_reverse=True) for n, (x, y) in enumerate(places)]
    names = [one["id"] for one in sockets]
    data = one_route([(0, 0), (1, 0)], thickness=thickness, accessories=sockets, joins=names,
                     openings=DOORS if doors else [])  # fmt: skip
    found = solved(data, start=(start, 2400))
    if isinstance(found, Solution):
        assert [f.rule for f in found.verdict.failures] == []
        nearest = min(_apart((start, 2400), place) for place in places)
        assert found.length >= nearest - 0.01
    else:
        assert found.proven


def _apart(point: tuple[float, float], centre: tuple[float, float]) -> float:
    """Level and upright distance from a point to a socket of 146 by 86."""
    return max(abs(point[0] - centre[0]) - 73, 0) + max(abs(point[1] - centre[1]) - 43, 0)


def test_a_route_that_joins_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="must join one accessory or more"):
        solved(one_route([(0, 0), (1, 0)], joins=[]), start=TOP)
