"""Time to redraw each live picture of the lessons after its slider has moved, beside judging its case alone.

A reader takes a change within 100 to 150 ms as the slider's own.
"""

from itertools import cycle

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.course.lessons import PATHS
from tests.course.live import file_of, live_box
from zonelib.rules.engine import judge

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="a live picture, redrawn")]
FILES = {path.name[:2]: file_of(path) for path in PATHS}
LIVE = [pytest.param(n, name, id=f"{n}-{name}") for n, file in FILES.items() for name in file.live]


@pytest.mark.parametrize(("number", "name"), LIVE)
def test_redraw(benchmark: BenchmarkFixture, number: str, name: str) -> None:
    box = live_box(FILES[number], name)
    slider = next(knob for knob in box.knobs if hasattr(knob, "step"))
    values = cycle([slider.value + slider.step, slider.value])

    def move() -> None:
        slider.value = next(values)

    benchmark.pedantic(move, rounds=9, warmup_rounds=2)
    assert "<svg" in box.page.value


def test_yardstick_judging_alone(benchmark: BenchmarkFixture) -> None:
    case, pack, _view = live_box(FILES["01"], "depth")._now()
    verdict = benchmark.pedantic(judge, args=(case, pack), rounds=9, warmup_rounds=2)
    assert verdict.findings
