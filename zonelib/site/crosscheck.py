"""Faults that lie between two values, found even where other parts of the file are unsound."""

import math
from collections import Counter
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import Any

from zonelib.site.faults import Fault, key_path, nearest
from zonelib.site.fields import FARTHEST
from zonelib.site.tolerance import TOLERANCE

__all__ = ["crosscheck"]

Box = tuple[float, float, float, float]
Profile = list[tuple[float, float]]


def crosscheck(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield the faults of a case's data that no single value shows.

    Whatever is itself malformed is passed over here; its own fault is reported elsewhere.
    """
    walls = _entries(data, "walls")
    yield from _twice(data)
    yield from _unknown_walls(data, walls)
    yield from _unknown_joins(data, walls)
    for position, wall in walls:
        yield from _wall(data, ("walls", position), wall)


def _entries(table: Any, key: str) -> list[tuple[int, dict[str, Any]]]:
    value = table.get(key) if isinstance(table, dict) else None
    entries = enumerate(value) if isinstance(value, list) else ()
    return [(position, entry) for position, entry in entries if isinstance(entry, dict)]


def _ids(entries: list[tuple[int, dict[str, Any]]]) -> list[str]:
    return [entry["id"] for _, entry in entries if isinstance(entry.get("id"), str)]


def _inner(data: dict[str, Any], outer: str, key: str) -> list[tuple[int, dict[str, Any]]]:
    return [inner for _, entry in _entries(data, outer) for inner in _entries(entry, key)]


_KINDS = (
    ("walls",),
    ("walls", "openings"),
    ("walls", "accessories"),
    ("routes",),
    ("joists",),
    ("joists", "holes"),
    ("joists", "notches"),
    ("fixings",),
)


def _twice(data: dict[str, Any]) -> Iterator[Fault]:
    for keys in _KINDS:
        ids = _ids(_entries(data, keys[0]) if len(keys) == 1 else _inner(data, *keys))
        for identity in sorted(one for one, times in Counter(ids).items() if times > 1):
            path, allowed = ".".join((*keys, "id")), f"one id for each of the {keys[-1]}"
            yield Fault(path, f'"{identity}" more than once', allowed)


def _unknown_walls(data: dict[str, Any], walls: list[tuple[int, dict[str, Any]]]) -> Iterator[Fault]:
    known = _ids(walls)
    for key in ("routes", "fixings"):
        for position, entry in _entries(data, key):
            if isinstance(entry.get("wall"), str) and entry["wall"] not in known:
                path = key_path(data, (key, position, "wall"))
                yield Fault(path, f'"{entry["wall"]}"', _choice(known, entry["wall"], "walls"))


def _unknown_joins(data: dict[str, Any], walls: list[tuple[int, dict[str, Any]]]) -> Iterator[Fault]:
    known = {identity: None for _, wall in walls for identity in _ids(_entries(wall, "accessories"))}
    for position, route in _entries(data, "routes"):
        joins = route.get("joins")
        for name in joins if isinstance(joins, list) else ():
            if isinstance(name, str) and name not in known:
                path = key_path(data, ("routes", position, "joins"))
                yield Fault(path, f'"{name}"', _choice(list(known), name, "accessories"))


def _choice(known: list[str], found: str, things: str) -> str:
    return ", ".join(known) + nearest(found, known) if known else f"nothing, the file has no {things}"


def _wall(data: dict[str, Any], loc: tuple[str, int], wall: dict[str, Any]) -> Iterator[Fault]:
    path = key_path(data, loc)
    if ("height" in wall) == ("top" in wall):
        found = "both height and top" if "height" in wall else "neither height nor top"
        yield Fault(path, found, "one of height and top")
    yield from _top(path, wall)
    yield from _corners(path, wall)
    openings = list(_boxes(data, loc, wall, "openings"))
    yield from _off_wall([*openings, *_boxes(data, loc, wall, "accessories")], _profile(wall))
    yield from _crossing(openings)


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > FARTHEST:
        return None
    return float(value) if math.isfinite(value) else None


def _size(value: Any) -> float | None:
    number = _number(value)
    return number if number is not None and number > 0 else None


def _points(value: Any) -> Profile | None:
    """Return a list of points, or nothing where one of them is not a pair of numbers."""
    pairs = [_pair(one) for one in value] if isinstance(value, list) else []
    sound = [pair for pair in pairs if pair is not None]
    return sound if len(sound) == len(pairs) and len(sound) > 1 else None


def _pair(value: Any) -> tuple[float, float] | None:
    match value:
        case [x, y]:
            first, second = _number(x), _number(y)
            return None if first is None or second is None else (first, second)
    return None


def _top(path: str, wall: dict[str, Any]) -> Iterator[Fault]:
    top, length = _points(wall.get("top")), _size(wall.get("length"))
    if top is None:
        return
    if top[0][0] != 0 or (length is not None and top[-1][0] != length):
        yield Fault(f"{path}.top", f"x from {top[0][0]:g} to {top[-1][0]:g}", "x from 0 to the wall's length")
    if any(right[0] <= left[0] for left, right in pairwise(top)):
        yield Fault(f"{path}.top", "x that does not rise", "x rising from point to point")
    if any(y <= 0 for _, y in top):
        yield Fault(f"{path}.top", "a height not above 0", "heights above 0")


def _corners(path: str, wall: dict[str, Any]) -> Iterator[Fault]:
    length = _size(wall.get("length"))
    for face in ("front", "rear"):
        for key in ("internal_corners", "external_corners"):
            table = wall.get(face)
            values = table.get(key) if isinstance(table, dict) else None
            for x in map(_number, values if isinstance(values, list) else ()):
                if x is not None and length is not None and not -TOLERANCE <= x <= length + TOLERANCE:
                    yield Fault(f"{path}.{face}.{key}", f"{x:g}, off the wall", f"0 to {length:g}")


def _profile(wall: dict[str, Any]) -> Profile | None:
    """Return the top of the wall, or nothing where the file does not give a sound one."""
    length, height = _size(wall.get("length")), _size(wall.get("height"))
    if length is None or ("height" in wall) == ("top" in wall):
        return None
    if "height" in wall:
        return [(0.0, height), (length, height)] if height is not None else None
    top = _points(wall.get("top"))
    return top if top is not None and not any(True for _ in _top("", wall)) else None


def _boxes(
    data: dict[str, Any], loc: tuple[str, int], wall: dict[str, Any], key: str
) -> Iterator[tuple[str, Box]]:
    """Yield path and bounds of the openings or accessories that have sound ones."""
    for position, entry in _entries(wall, key):
        x, y = _number(entry.get("x")), _number(entry.get("y"))
        width, height = _size(entry.get("width")), _size(entry.get("height"))
        if x is None or y is None or width is None or height is None:
            continue
        left, bottom = (x, y) if key == "openings" else (x - width / 2, y - height / 2)
        yield key_path(data, (*loc, key, position)), (left, bottom, left + width, bottom + height)


def _off_wall(boxes: list[tuple[str, Box]], profile: Profile | None) -> Iterator[Fault]:
    if profile is None:
        return
    for path, (left, bottom, right, top) in boxes:
        length, lowest = profile[-1][0], _lowest(profile, left, right)
        if left < -TOLERANCE or right > length + TOLERANCE or bottom < -TOLERANCE or top > lowest + TOLERANCE:
            found = f"x {left:g} to {right:g}, y {bottom:g} to {top:g}, off the wall"
            yield Fault(path, found, f"x 0 to {length:g}, y 0 to {lowest:g}")


def _lowest(profile: Profile, left: float, right: float) -> float:
    """Return the lowest height of the wall's top between two x [mm]."""
    ends = [_height_at(profile, min(max(x, 0.0), profile[-1][0])) for x in (left, right)]
    return min(ends + [y for x, y in profile if left < x < right])


def _height_at(profile: Profile, x: float) -> float:
    (x0, y0), (x1, y1) = next(pair for pair in pairwise(profile) if x <= pair[1][0])
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def _crossing(openings: list[tuple[str, Box]]) -> Iterator[Fault]:
    for (path, one), (other_path, other) in combinations(openings, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        up = min(one[3], other[3]) - max(one[1], other[1])
        if across > TOLERANCE and up > TOLERANCE:
            yield Fault(path, f"an opening that crosses {other_path}", "openings that do not cross")
