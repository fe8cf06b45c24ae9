"""Zones by a second geometry engine: integer polygons and their own clipping, from the words of the rules.

Shares no line with the engine's zones, and none with :mod:`tests.oracle.sheet`. Lengths are held as
whole thousandths of a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

import pyclipper

from tests.oracle.facts import NO_ZONE, Item, at_most, roof

__all__ = ["Paths", "area", "de_zone", "tiles", "uk_zone"]

Path: TypeAlias = list[tuple[int, int]]
Paths: TypeAlias = list[Path]

GRAIN = 1000
"""Units to a millimetre."""

DEEP = 1e5
"""Lower than any floor, higher than any ceiling [mm]."""

DE_NO_ZONE = frozenset(["radiator", "mirror"])


def _path(points: Iterable[tuple[float, float]]) -> Path:
    return [(round(x * GRAIN), round(y * GRAIN)) for x, y in points]


def _box(left: float, low: float, right: float, high: float) -> Paths:
    corners = [(left, low), (right, low), (right, high), (left, high)]
    return [_path(corners)] if left < right and low < high else []


def _combine(how: int, subject: Paths, clip: Paths) -> Paths:
    if not subject or not (clip or how != pyclipper.CT_INTERSECTION):
        return clip if how == pyclipper.CT_UNION else []
    clipper = pyclipper.Pyclipper()
    clipper.AddPaths(subject, pyclipper.PT_SUBJECT, closed=True)
    if clip:
        clipper.AddPaths(clip, pyclipper.PT_CLIP, closed=True)
    fill = pyclipper.PFT_NONZERO
    return [[(x, y) for x, y in path] for path in clipper.Execute(how, fill, fill)]


def _union(parts: Iterable[Paths]) -> Paths:
    return _combine(pyclipper.CT_UNION, [_anticlockwise(path) for part in parts for path in part], [])


def _anticlockwise(path: Path) -> Path:
    return path if pyclipper.Orientation(path) else path[::-1]


def _both(one: Paths, other: Paths) -> Paths:
    return _combine(pyclipper.CT_INTERSECTION, one, other)


def _without(one: Paths, other: Paths) -> Paths:
    return _combine(pyclipper.CT_DIFFERENCE, one, other)


def area(paths: Paths) -> float:
    """Return the area, holes taken off [mm2]."""
    return float(sum(pyclipper.Area(path) for path in paths)) / GRAIN**2


def tiles(wall: Item, paths: Paths) -> list[float]:
    """Return the area in each of nine equal tiles of the wall [mm2]."""
    wide, high = wall["length"] / 3, max(y for _, y in roof(wall)) / 3
    corners = [(i * wide, j * high) for i in range(3) for j in range(3)]
    return [area(_both(paths, _box(x, y, x + wide, y + high))) for x, y in corners]


def _below(wall: Item, drop: float) -> Paths:
    """Return all that lies at least so far straight under the wall's top, down past the floor."""
    line = [(x, y - drop) for x, y in roof(wall)]
    return [_path([(wall["length"], -DEEP), (0.0, -DEEP), *line])]


def _face(wall: Item) -> Paths:
    return _both(_below(wall, 0.0), _box(0.0, 0.0, wall["length"], DEEP))


def _openings(wall: Item, grown: float = 0.0) -> list[Paths]:
    return [
        _box(o["x"] - grown, o["y"] - grown, o["x"] + o["width"] + grown, o["y"] + o["height"] + grown)
        for o in wall["openings"]
    ]


def uk_zone(wall: Item, face: str, reading: dict[str, str], joins: Sequence[str]) -> Paths:
    """Return the permitted zone of a face as the ``uk`` pack's words draw it."""
    parts = [_within_150_of_top(wall, shortest=reading["sloping_top"] == "perpendicular")]
    keys = ["internal_corners"] + ["external_corners"] * (reading["external_corners"] == "yes")
    corners = [x for key in keys for x in wall.get(face, {}).get(key, [])]
    parts += [_box(x - 150, 0, x + 150, DEEP) for x in corners]
    for one in wall["accessories"]:
        if _uk_serves(wall, face, one, reading, joins):
            parts += _strips(wall, one, cut=reading["openings_cut_strips"] == "yes")
    return _both(_union(parts), _face(wall))


def _within_150_of_top(wall: Item, *, shortest: bool) -> Paths:
    if not shortest:
        return _without(_face(wall), _below(wall, 150.0))
    offset = pyclipper.PyclipperOffset(arc_tolerance=1.0)
    offset.AddPath(_path(roof(wall)), pyclipper.JT_ROUND, pyclipper.ET_OPENROUND)
    return [[(x, y) for x, y in path] for path in offset.Execute(150.0 * GRAIN)]


def _uk_serves(wall: Item, face: str, one: Item, reading: dict[str, str], joins: Sequence[str]) -> bool:
    kind, thin = one["kind"], at_most(wall["thickness"], 100)
    makes = kind not in NO_ZONE and (kind != "blank-plate" or reading["blank_plates"] == "yes")
    asked = one["id"] in joins or reading["borrow_zones"] == "yes"
    return makes and asked and (one["face"] == face or (thin and one.get("locatable_from_reverse") is True))


def _strips(wall: Item, one: Item, *, cut: bool) -> list[Paths]:
    """Return the four arms of a plate's strips, each ending where an opening stands in its way."""
    x, y, half, rise = one["x"], one["y"], one["width"] / 2, one["height"] / 2
    arms = [
        ((0, 1), _box(x - half, y, x + half, DEEP)),
        ((0, -1), _box(x - half, -DEEP, x + half, y)),
        ((1, 0), _box(x, y - rise, DEEP, y + rise)),
        ((-1, 0), _box(-DEEP, y - rise, x, y + rise)),
    ]
    return [_without(arm, _shadows(wall, way, arm)) if cut else arm for way, arm in arms]


def _shadows(wall: Item, way: tuple[int, int], arm: Paths) -> Paths:
    ahead = [_both(hole, arm) for hole in _openings(wall)]
    return _union(_swept(hole[0], way) for hole in ahead if hole)


def _swept(hole: Path, way: tuple[int, int]) -> Paths:
    """Return a rectangle dragged a long way in one direction."""
    xs, ys = [x for x, _ in hole], [y for _, y in hole]
    far = round(DEEP * GRAIN)
    left, right = min(xs) - far * (way[0] < 0), max(xs) + far * (way[0] > 0)
    low, high = min(ys) - far * (way[1] < 0), max(ys) + far * (way[1] > 0)
    return [[(left, low), (right, low), (right, high), (left, high)]]


def de_zone(wall: Item, face: str, reading: dict[str, str], joins: Sequence[str]) -> Paths:
    """Return the installation zones of a face as FACTS 5 draws them, and the stubs of what it joins."""
    levels = _levels(wall, face)
    parts = [*levels, *_uprights(wall, face, reading)]
    for one in wall["accessories"]:
        if one["id"] in joins and one["face"] == face and one["kind"] not in DE_NO_ZONE:
            parts += _stubs(wall, one, levels)
    return _without(_both(_union(parts), _face(wall)), _union(_openings(wall, 100.0)))


def _levels(wall: Item, face: str) -> list[Paths]:
    under_ceiling = _without(_below(wall, 150.0), _below(wall, 450.0))
    heights = [(150, 450)] + [(1000, 1300)] * wall.get(face, {}).get("worktop", False)
    bands = [_box(0, low, wall["length"], high) for low, high in heights]
    return [_both(band, _face(wall)) for band in (under_ceiling, *bands)]


def _uprights(wall: Item, face: str, reading: dict[str, str]) -> list[Paths]:
    side = wall.get(face, {})
    corners = list(side.get("internal_corners", []))
    corners += side.get("external_corners", []) if reading["external_corners"] == "yes" else []
    lefts, rights = list(corners), list(corners)
    for o in wall["openings"]:
        sides = {"window": "both", "door": o.get("lock_side", "")}.get(o["kind"], "")
        lefts += [o["x"]] if sides in {"left", "both"} else []
        rights += [o["x"] + o["width"]] if sides in {"right", "both"} else []
    return [_box(x - 300, 0, x - 100, DEEP) for x in lefts] + [
        _box(x + 100, 0, x + 300, DEEP) for x in rights
    ]


def _stubs(wall: Item, one: Item, levels: list[Paths]) -> list[Paths]:
    """Return the straight way up or down to each level zone that is nearest to a plate's centre."""
    gaps = [_gap(wall, one, band) for band in levels]
    least = min(gaps, key=lambda gap: gap[0])[0]
    if not 0 < least < DEEP:
        return []
    near = [(band, up) for (gap, up), band in zip(gaps, levels, strict=True) if gap < least + 0.001]
    return [_way(one, band, up=up) for band, up in near]


def _gap(wall: Item, one: Item, band: Paths) -> tuple[float, bool]:
    """Return how far a level zone is from a plate's centre, straight up or down, and whether it is above."""
    line = _box(one["x"] - 0.001, -DEEP, one["x"] + 0.001, DEEP)
    left = _without(_both(band, line), _union(_openings(wall, 100.0)))
    gaps = [
        max(min(y for _, y in path) / GRAIN - one["y"], one["y"] - max(y for _, y in path) / GRAIN, 0.0)
        for path in left
    ]
    above = [min(y for _, y in path) / GRAIN > one["y"] for path in left]
    return min(zip(gaps, above, strict=True), default=(DEEP, True))


def _way(one: Item, band: Paths, *, up: bool) -> Paths:
    """Return the plate and the strip from it to a level zone, on each upright line as far as it goes."""
    left, right = one["x"] - one["width"] / 2, one["x"] + one["width"] / 2
    low, high = one["y"] - one["height"] / 2, one["y"] + one["height"] / 2
    strip = _box(left, low, right, DEEP) if up else _box(left, -DEEP, right, high)
    beyond = _union(_swept_path(path, up=up) for path in _both(band, strip))
    return _without(strip, beyond)


def _swept_path(path: Path, *, up: bool) -> Paths:
    """Return a path with all that lies straight beyond it."""
    way = round((DEEP if up else -DEEP) * GRAIN)
    moved = pyclipper.MinkowskiSum([(0, 0), (0, way)], path, True)
    return _union([[[(x, y) for x, y in one] for one in moved], [path]])
