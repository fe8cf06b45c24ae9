"""Time of the shortest run in a room of 4 walls with 20 accessories, beside one verdict on it.

No test fails for being slow: the ratio is kept with the measurement, and the size of the search is bounded.
"""

from timeit import repeat

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.rules.cases import accessory
from tests.rules.rooms import case_of, own, room, round_room
from zonelib import judge, load_pack
from zonelib.coach.field import field_of
from zonelib.coach.solver import Solution, shortest_route
from zonelib.coach.ways import Cost, Ways
from zonelib.rules.rulebook import Rulebook
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Route

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="the shortest run")]
PACK = load_pack("uk")


def twenty(*joins: str) -> tuple[Case, Route]:
    """Return a room with five accessories on each of its four walls, and the cable to run in it."""
    walls = [
        own(n, *(accessory(f"S{n}-{k}", 300 + 550 * k, 450 if k % 2 else 1200) for k in range(5)))
        for n in (1, 2, 3, 4)
    ]
    data = case_of(room(walls=walls), routes=[round_room([(0, 0), (1, 0)], joins=list(joins))])
    case = case_from_data(data, PACK.vocabulary)
    return case.model_copy(update={"routes": ()}), case.routes[0]


@pytest.mark.parametrize("joins", [("S1-1", "S3-2"), ("S1-1", "S2-2", "S3-2", "S4-0")], ids=["two", "four"])
def test_a_run_in_a_room_of_twenty_accessories(benchmark: BenchmarkFixture, joins: tuple[str, ...]) -> None:
    case, route = twenty(*joins)
    found = benchmark.pedantic(shortest_route, args=(case, PACK, route), rounds=5, warmup_rounds=1)
    assert isinstance(found, Solution)
    assert found.verdict.passed
    ways = Ways(field_of(case, Rulebook(PACK), route), Cost())
    assert ways.crossings < 2000
    answered = case.model_copy(update={"routes": (found.route,)})
    verdict = min(repeat(lambda: judge(answered, PACK), number=1, repeat=5))
    solved = min(repeat(lambda: shortest_route(case, PACK, route), number=1, repeat=3))
    benchmark.extra_info |= {"verdict_s": verdict, "ratio": solved / verdict}
