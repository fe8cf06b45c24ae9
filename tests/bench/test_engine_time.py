"""Time of one verdict, beside the shapely operations that no engine could leave out."""

from collections.abc import Callable
from typing import TypeVar

import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.walls import cases
from zonelib.rules.engine import judge
from zonelib.rules.pack import load_pack
from zonelib.site.model import Case

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="one verdict")]
PACK = load_pack("uk")
T = TypeVar("T")


def per_case(benchmark: BenchmarkFixture, work: Callable[[Case], T]) -> T:
    """Time the work on a new case in every round."""
    stream = cases()
    result: T = benchmark.pedantic(work, setup=lambda: ((next(stream),), {}), rounds=200, warmup_rounds=5)
    return result


def bare(case: Case) -> float:
    """Build both faces' zones and measure what of the cable lies outside: geometry alone, no reasons."""
    (wall,), (route,) = case.walls, case.routes
    line, outside = shapely.LineString(route.points), 0.0
    for face in (wall.front, wall.rear):
        outline = shapely.box(0, 0, wall.length, 2400)
        parts = [shapely.box(0, 2250, wall.length, 2400)]
        parts += [shapely.box(x - 150, 0, x + 150, 2400) for x in face.internal_corners]
        for one in wall.accessories[:1]:
            left, low, right, high = one.bounds
            parts += [shapely.box(left, 0, right, 2400), shapely.box(0, low, wall.length, high)]
        holes = shapely.union_all([shapely.box(*one.bounds) for one in wall.openings])
        forbidden = outline.difference(holes).difference(shapely.union_all(parts))
        outside += line.intersection(forbidden.buffer(route.cable.width / 2)).length
    return outside


def test_bare_shapely(benchmark: BenchmarkFixture) -> None:
    assert per_case(benchmark, bare) > 0


def test_judge_with_reasons(benchmark: BenchmarkFixture) -> None:
    verdict = per_case(benchmark, lambda case: judge(case, PACK))
    assert {finding.rule for finding in verdict.findings} >= {"wall-zone", "wall-rcd"}
    assert all(finding.text for finding in verdict.findings)
