"""Whatever stands in a pack or a case, it is judged or refused in words: each place is spoiled in turn."""

import copy
import json
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.house.specimen import specimen
from zonelib import FileFault, judge, load_pack
from zonelib.rules import pack as pack_module
from zonelib.rules.load import case_and_pack

PACKS = Path(pack_module.__file__).parent / "packs"
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DROPPED = object()
ODD: list[Any] = [
    None, True, -1, 0, 1e300, "x", "", [], [1], {}, {"a": 1}, ["x"], float("nan"), "{", "1/0", "4.2(c)",
    "side", "both", -5, 1e7, DROPPED,
]  # fmt: skip
Way = tuple[str | int, ...]


def ways(data: Any, before: Way = ()) -> Iterator[Way]:
    """Yield the way to every value of a file's data."""
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inner:
        yield (*before, key)
        yield from ways(value, (*before, key))


def put(data: Any, way: Way, value: Any) -> Any:
    """Return a copy of the data with another value in one place, or with none."""
    changed = copy.deepcopy(data)
    holder = changed
    for key in way[:-1]:
        holder = holder[key]
    if value is DROPPED:
        del holder[way[-1]]
    else:
        holder[way[-1]] = value
    return changed


def spoiled(path: Path, *, each: int) -> Iterator[Any]:
    """Yield a file's data with one place spoiled, each place by a few values in turn."""
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    for number, way in enumerate(ways(data)):
        for step in range(each):
            yield put(data, way, ODD[(number * each + step) % len(ODD)])


def refused(read_and_judge: Callable[[], object]) -> str:
    """Return the words of a refusal, or "" where there is a verdict."""
    try:
        read_and_judge()
    except FileFault as fault:
        return str(fault)
    return ""


@pytest.mark.parametrize("name", ["de", "us"])
def test_a_spoiled_pack_judges_or_is_refused(tmp_path: Path, name: str) -> None:
    file, told = tmp_path / "pack.json", []
    for data in spoiled(PACKS / f"{name}.toml", each=1):
        if data.get("builds") and data.get("accessories"):  # the specimen needs one of each
            file.write_text(json.dumps(data), encoding="utf-8")
            told.append(refused(lambda: specimen(load_pack(file))))
    assert "" in told
    assert all("allowed: " in words for words in told if words)


@pytest.mark.parametrize("name", ["floor-joist", "stud-wall"])
def test_a_spoiled_case_is_judged_or_refused(tmp_path: Path, name: str) -> None:
    file, told = tmp_path / "case.json", []
    for data in spoiled(EXAMPLES / f"{name}.toml", each=4):
        file.write_text(json.dumps(data), encoding="utf-8")
        told.append(refused(lambda: json.dumps(judge(*case_and_pack(file)).as_data())))
    assert "" in told
    assert all("allowed: " in words for words in told if words)
