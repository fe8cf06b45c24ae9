"""Time of one verdict in rooms of 4, 40 and 400 walls, beside the shapely operations it cannot avoid.

What a route does not touch must cost it next to nothing. No test fails for being slow: the work is
counted, and the ratio of the engine's time to the bare operations is kept with the measurement.
"""

from timeit import repeat
from unittest.mock import patch

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.large_rooms import bare, large_room
from zonelib.rules import surface
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.pack import Pack, load_pack
from zonelib.rules.zones import zones
from zonelib.site.model import Case

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="one route in a large room")]
PACK = load_pack("uk")
SIZES = [(4, 1), (4, 100), (40, 1), (40, 10), (40, 100), (400, 1), (400, 10), (400, 100)]


def forget() -> None:
    """Let no wall be ready from an earlier verdict: what a first one costs is measured."""
    surface._prepared.cache_clear()


def walls_looked_at(case: Case) -> list[str]:
    """Return for which walls the zones were drawn, once for each time."""
    forget()
    with patch.object(surface, "zones", wraps=zones) as drawn:
        judge(case, PACK)
    return sorted(call.args[0].id for call in drawn.call_args_list)


def timed(benchmark: BenchmarkFixture, case: Case) -> Verdict:
    """Time a verdict, and keep beside it the time of the bare operations and how many times more it is."""
    yardstick = min(repeat(lambda: bare(case), number=5, repeat=5)) / 5
    start = min(repeat(lambda: judge(case, PACK), setup=forget, number=1, repeat=10))
    benchmark.extra_info |= {"bare_shapely_s": yardstick, "ratio": start / yardstick}

    def afresh() -> tuple[tuple[Case, Pack], dict[str, object]]:
        forget()
        return (case, PACK), {}

    benchmark.pedantic(judge, setup=afresh, rounds=10, warmup_rounds=1)
    return judge(case, PACK)


@pytest.mark.parametrize(("walls", "each"), SIZES)
def test_a_route_in_a_large_room(benchmark: BenchmarkFixture, walls: int, each: int) -> None:
    case = large_room(walls, each)
    assert len(case.walls) == walls
    assert set(walls_looked_at(case)) == {"A.2", "A.3"}
    assert len(walls_looked_at(case)) <= 4
    verdict = timed(benchmark, case)
    assert {finding.where.wall for finding in verdict.findings} == {"A.2", "A.3", None}


@pytest.mark.parametrize("joins", [1, 10, 100])
def test_a_route_that_joins_many(benchmark: BenchmarkFixture, joins: int) -> None:
    case = large_room(40, 100, joins=joins)
    timed(benchmark, case)
    assert len(walls_looked_at(case)) <= 4
