"""Faults of one wall: its top, its corners, what lies off it, openings that cross."""

from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import Any

from zonelib.site.faults import Fault, Loc, key_path
from zonelib.site.raw import Profile, entries, number, points, size
from zonelib.site.tolerance import TOLERANCE

__all__ = ["wall_faults"]

Box = tuple[float, float, float, float]


def wall_faults(data: dict[str, Any], loc: Loc, wall: dict[str, Any]) -> Iterator[Fault]:
    """Yield the faults of a wall's data.

    Parameters
    ----------
    data : dict
        The whole file.
    loc : tuple
        Where the wall stands in it.
    wall : dict
        The wall; that of a room with its length and height filled in.
    """
    path = key_path(data, loc)
    if ("height" in wall) == ("top" in wall):
        found = "both height and top" if "height" in wall else "neither height nor top"
        yield Fault(path, found, "one of height and top")
    yield from _top(path, wall)
    yield from _corners(path, wall)
    openings = list(_boxes(data, loc, wall, "openings"))
    yield from _off_wall([*openings, *_boxes(data, loc, wall, "accessories")], _profile(wall))
    yield from _crossing(openings)


def _top(path: str, wall: dict[str, Any]) -> Iterator[Fault]:
    top, length = points(wall.get("top")), size(wall.get("length"))
    if top is None:
        return
    if top[0][0] != 0 or (length is not None and top[-1][0] != length):
        yield Fault(f"{path}.top", f"x from {top[0][0]:g} to {top[-1][0]:g}", "x from 0 to the wall's length")
    if any(right[0] <= left[0] for left, right in pairwise(top)):
        yield Fault(f"{path}.top", "x that does not rise", "x rising from point to point")
    if any(y <= 0 for _, y in top):
        yield Fault(f"{path}.top", "a height not above 0", "heights above 0")


def _corners(path: str, wall: dict[str, Any]) -> Iterator[Fault]:
    length = size(wall.get("length"))
    for face in ("front", "rear"):
        for key in ("internal_corners", "external_corners"):
            table = wall.get(face)
            values = table.get(key) if isinstance(table, dict) else None
            for x in map(number, values if isinstance(values, list) else ()):
                if x is not None and length is not None and not -TOLERANCE <= x <= length + TOLERANCE:
                    yield Fault(f"{path}.{face}.{key}", f"{x:g}, off the wall", f"0 to {length:g}")


def _profile(wall: dict[str, Any]) -> Profile | None:
    """Return the top of the wall, or nothing where the file does not give a sound one."""
    length, height = size(wall.get("length")), size(wall.get("height"))
    if length is None or ("height" in wall) == ("top" in wall):
        return None
    if "height" in wall:
        return [(0.0, height), (length, height)] if height is not None else None
    top = points(wall.get("top"))
    return top if top is not None and not any(True for _ in _top("", wall)) else None


def _boxes(data: dict[str, Any], loc: Loc, wall: dict[str, Any], key: str) -> Iterator[tuple[str, Box]]:
    """Yield path and bounds of the openings or accessories that have sound ones."""
    for position, entry in entries(wall, key):
        x, y = number(entry.get("x")), number(entry.get("y"))
        width, height = size(entry.get("width")), size(entry.get("height"))
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
