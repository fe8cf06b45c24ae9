"""FACTS 4: the sizes that our walls and exercises are drawn with are those of real things."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
FOLDERS = ("zonelib/exercise/bank", "docs/examples", "lessons/walls")

# One published list of flat twin-and-earth cables; makers differ: mm² to width and thickness [mm].
FLAT = {
    1.0: (7.8, 4.25), 1.5: (8.2, 5.0), 2.5: (10.3, 6.0), 4.0: (11.9, 6.25), 6.0: (13.5, 7.0),
    10.0: (17.1, 10.0), 16.0: (19.4, 10.0),
}  # fmt: skip
PLATES = {(86, 86), (146, 86)}
PLATED = {"socket", "switch", "fused-connection", "data-outlet", "blank-plate"}


def files() -> list[Any]:
    found = [path for folder in FOLDERS for path in sorted((ROOT / folder).glob("*.toml"))]
    return [pytest.param(path, id=path.name) for path in found]


def tables(data: Any, key: str) -> list[dict[str, Any]]:
    """Return every table that stands under a key, at any depth."""
    if isinstance(data, list):
        return [one for item in data for one in tables(item, key)]
    if not isinstance(data, dict):
        return []
    own = data.get(key, [])
    rest = [one for name, value in data.items() if name != key for one in tables(value, key)]
    return [*(own if isinstance(own, list) else [own]), *rest]


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def test_there_are_walls_to_look_at() -> None:
    paths = [param.values[0] for param in files()]
    assert {str(path.parent.relative_to(ROOT)) for path in paths} == set(FOLDERS)


@pytest.mark.outside(source="one published list of flat cables", grade="P")
@pytest.mark.parametrize("path", files())
def test_a_flat_cable_is_one_of_the_published_list(path: Path) -> None:
    flat = {(c["width"], c["thickness"]) for c in tables(read(path), "cable") if c["width"] != c["thickness"]}
    assert flat <= set(FLAT.values())


@pytest.mark.outside(source="plates of one and two gang", grade="M")
@pytest.mark.parametrize("path", files())
def test_a_plate_is_of_one_or_two_gang(path: Path) -> None:
    plates = [one for one in tables(read(path), "accessories") if one["kind"] in PLATED]
    assert {(one["width"], one["height"]) for one in plates} <= PLATES


@pytest.mark.outside(source="Approved Document M vol. 1, 1.18", grade="P")
@pytest.mark.parametrize("path", files())
def test_switches_and_sockets_stand_450_to_1200_mm_above_the_floor(path: Path) -> None:
    stated = [one for one in tables(read(path), "accessories") if one["kind"] in {"socket", "switch"}]
    assert [one["id"] for one in stated if not 450 <= one["y"] <= 1200] == []
