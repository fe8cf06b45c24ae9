"""Faults of studs, joists and runs that lie between two values."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

from zonelib.site.faults import Fault, key_path, nearest

__all__ = ["timber_faults"]

Entries = list[tuple[int, dict[str, Any]]]


def timber_faults(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield the faults of a case's studs and runs that no single value shows."""
    for keys in (("studs",), ("studs", "holes"), ("studs", "notches"), ("runs",)):
        yield from _twice(data, keys)
    joists = [one["id"] for _, one in _tables(data, "joists") if isinstance(one.get("id"), str)]
    for position, run in _tables(data, "runs"):
        path = key_path(data, ("runs", position))
        yield from _joist(path, run, joists)
        yield from _height(path, run)
        yield from _void(path, run)
        yield from _span(path, run)


def _tables(data: dict[str, Any], key: str) -> Entries:
    value = data.get(key)
    entries = enumerate(value) if isinstance(value, list) else ()
    return [(position, entry) for position, entry in entries if isinstance(entry, dict)]


def _twice(data: dict[str, Any], keys: tuple[str, ...]) -> Iterator[Fault]:
    ids = Counter(one["id"] for one in _at(data, keys) if isinstance(one.get("id"), str))
    for name in sorted(one for one, times in ids.items() if times > 1):
        path, allowed = ".".join((*keys, "id")), f"one id for each of the {keys[-1]}"
        yield Fault(path, f'"{name}" more than once', allowed)


def _at(data: dict[str, Any], keys: Iterable[str]) -> list[dict[str, Any]]:
    holders = [data]
    for key in keys:
        holders = [inner for holder in holders for _, inner in _tables(holder, key)]
    return holders


def _joist(path: str, run: dict[str, Any], joists: list[str]) -> Iterator[Fault]:
    name = run.get("joist")
    if isinstance(name, str) and name not in joists:
        known = ", ".join(joists) + nearest(name, joists) if joists else "nothing, the file has no joists"
        yield Fault(f"{path}.joist", f'"{name}"', known)


_HEIGHTS = ("below_top", "above_bottom")


def _height(path: str, run: dict[str, Any]) -> Iterator[Fault]:
    """Yield a height that is missing at the side of a joist, given twice, or given elsewhere."""
    given, place = [key for key in _HEIGHTS if run.get(key) is not None], run.get("place", "side")
    if place == "side":
        if len(given) != 1:
            found = "both below_top and above_bottom" if given else "neither below_top nor above_bottom"
            yield Fault(path, found, "one of below_top and above_bottom, for a cable at the joist's side")
    elif isinstance(place, str) and place in {"over", "under", "on-ceiling"}:
        for key in given:
            yield Fault(f"{path}.{key}", f'a height with place "{place}"', 'only with place "side"')


def _void(path: str, run: dict[str, Any]) -> Iterator[Fault]:
    if run.get("place") == "on-ceiling" and run.get("void") == "floor":
        yield Fault(f"{path}.void", '"floor", with a cable on a ceiling', '"ceiling" or "both"')


def _span(path: str, run: dict[str, Any]) -> Iterator[Fault]:
    start, end = _number(run.get("from")), _number(run.get("to"))
    if start is not None and end is not None and start >= end:
        yield Fault(path, f"from {start:g} to {end:g}", "from less than to")


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if abs(value) < math.inf else None
