"""Time of `import zonelib`, beside the two libraries it cannot do without."""

import subprocess
import sys

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="import")]


def modules_after(statement: str) -> set[str]:
    code = f"{statement}; import sys; print(*sys.modules)"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    return set(out.split())


@pytest.mark.parametrize("statement", ["pass", "import shapely, pydantic", "import zonelib"])
def test_start(benchmark: BenchmarkFixture, statement: str) -> None:
    loaded = benchmark.pedantic(modules_after, args=(statement,), rounds=7, warmup_rounds=1)
    assert ("zonelib" in loaded) == ("zonelib" in statement)
    assert ("shapely" in loaded) == (statement != "pass")
