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
# Where a length is to be worked out in the head, the cable has a width that is easy to halve.
BY_HEAD = {"number": {(10.0, 6.0)}}
# No flat cable: two meter tails of 25 mm², side by side (from memory).
TAILS = (22, 11)
PLATES = {(86, 86), (146, 86)}
PLATED = {"socket", "switch", "fused-connection", "data-outlet", "blank-plate"}
# England, new dwellings: lowest and highest above the floor [mm].
HEIGHTS = {"socket": (450, 1200), "switch": (450, 1200), "consumer-unit": (1350, 1450)}


def files() -> list[Any]:
    found = [path for folder in FOLDERS for path in sorted((ROOT / folder).glob("*.toml"))]
    return [pytest.param(path, id=path.name) for path in found if british(read(path))]


def british(data: dict[str, Any]) -> bool:
    case = data.get("case", data)
    return not isinstance(case, dict) or case["pack"] == "uk"


def tables(data: Any, key: str) -> list[Any]:
    """Return everything that stands under a key, at any depth."""
    if isinstance(data, list):
        return [one for item in data for one in tables(item, key)]
    if not isinstance(data, dict):
        return []
    own = data.get(key, [])
    rest = [one for name, value in data.items() if name != key for one in tables(value, key)]
    return [*(own if isinstance(own, list) else [own]), *rest]


def drawn(draws: dict[str, Any], end: str) -> list[dict[str, Any]]:
    """Return the draws of rooms of their own that set something of this name."""
    return [one for one in draws.values() if any(each.endswith(end) for each in one.get("sets", ()))]


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def test_there_are_walls_to_look_at() -> None:
    paths = [param.values[0] for param in files()]
    assert {str(path.parent.relative_to(ROOT)) for path in paths} == set(FOLDERS)


@pytest.mark.outside(source="one published list of flat cables", grade="P")
@pytest.mark.parametrize("path", files())
def test_a_flat_cable_is_one_of_the_published_list(path: Path) -> None:
    data = read(path)
    draws = data.pop("variants", {}).get("draw", {})
    stated = [*tables(data, "cable"), *(value for one in drawn(draws, ".cable") for value in one["values"])]
    whole = {(one["width"], one["thickness"]) for one in stated if isinstance(one, dict)}
    allowed = {*FLAT.values(), TAILS, *BY_HEAD.get(data.get("kind", ""), ())}
    assert {size for size in whole if size[0] != size[1]} <= allowed
    assert {one for one in stated if not isinstance(one, dict)} <= {width for width, _ in FLAT.values()}


@pytest.mark.outside(source="plates of one and two gang", grade="M")
@pytest.mark.parametrize("path", files())
def test_a_plate_is_of_one_or_two_gang(path: Path) -> None:
    plates = [one for one in tables(read(path), "accessories") if one["kind"] in PLATED]
    assert {(one["width"], one["height"]) for one in plates} <= PLATES


@pytest.mark.outside(source="Approved Document M vol. 1, 1.18", grade="P")
@pytest.mark.parametrize("path", files())
def test_what_is_handled_stands_at_the_heights_of_new_dwellings(path: Path) -> None:
    stated = [one for one in tables(read(path), "accessories") if one["kind"] in HEIGHTS]
    assert [one["id"] for one in stated if not within(one["y"], HEIGHTS[one["kind"]])] == []


def within(height: float, span: tuple[float, float]) -> bool:
    return span[0] <= height <= span[1]
