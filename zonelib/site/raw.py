"""A file's data as they come: read what is sound in them, pass over the rest."""

import math
from typing import Any

from zonelib.site.fields import FARTHEST

__all__ = ["Entry", "Profile", "entries", "ids", "number", "points", "size"]

Entry = tuple[int, dict[str, Any]]
Profile = list[tuple[float, float]]


def entries(table: Any, key: str) -> list[Entry]:
    """Return the tables of a list, each with its position."""
    value = table.get(key) if isinstance(table, dict) else None
    every = enumerate(value) if isinstance(value, list) else ()
    return [(position, entry) for position, entry in every if isinstance(entry, dict)]


def ids(every: list[Entry]) -> list[str]:
    """Return the ids that are text."""
    return [entry["id"] for _, entry in every if isinstance(entry.get("id"), str)]


def number(value: Any) -> float | None:
    """Return a finite number within bounds, or nothing."""
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > FARTHEST:
        return None
    return float(value) if math.isfinite(value) else None


def size(value: Any) -> float | None:
    """Return a number above 0, or nothing."""
    found = number(value)
    return found if found is not None and found > 0 else None


def points(value: Any) -> Profile | None:
    """Return a list of points, or nothing where one of them is not a pair of numbers."""
    pairs = [_pair(one) for one in value] if isinstance(value, list) else []
    sound = [pair for pair in pairs if pair is not None]
    return sound if len(sound) == len(pairs) and len(sound) > 1 else None


def _pair(value: Any) -> tuple[float, float] | None:
    match value:
        case [x, y]:
            first, second = number(x), number(y)
            return None if first is None or second is None else (first, second)
    return None
