"""A face under the ``de`` pack as plain inequalities, from the words of FACTS 5 (grade P)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tests.oracle.facts import Item, roof
from tests.oracle.sheet import Box, Ground, Line, top_at

__all__ = ["LevelSheet", "level_sheet"]

CLEAR = 100.0
"""How far a zone keeps from an opening: over a door of 2.00 m it begins at 2.10 m (FACTS 5, grade T)."""

CEILING = (150.0, 450.0)
FLOOR = (150.0, 450.0)
WORKTOP = (1000.0, 1300.0)
BESIDE = (100.0, 300.0)
NO_ZONE = frozenset(["radiator", "mirror"])


@dataclass(frozen=True)
class Stub:
    """The way from a device to a level zone, ending where that begins, or at the ceiling's for None [mm]."""

    left: float
    right: float
    low: float | None
    high: float | None


@dataclass(frozen=True)
class LevelSheet(Ground):
    """A face with its installation zones.

    Attributes
    ----------
    levels : tuple of (low, high)
        Level zones over the floor [mm].
    uprights : tuple of (left, right)
        Upright zones [mm].
    stubs : tuple of Stub
        Ways to the devices that a cable joins.
    """

    levels: tuple[tuple[float, float], ...]
    uprights: tuple[tuple[float, float], ...]
    stubs: tuple[Stub, ...] = ()

    def in_zone(self, x: float, y: float) -> bool:
        """Tell whether a level zone, an upright one or a stub permits the point."""
        if any(box.holds(x, y) for box in grown(self.openings)):
            return False
        under = top_at(self.top, x) - y
        if CEILING[0] <= under <= CEILING[1] or any(low <= y <= high for low, high in self.levels):
            return True
        return any(a <= x <= b for a, b in self.uprights) or any(self._fed(stub, x, y) for stub in self.stubs)

    def _fed(self, stub: Stub, x: float, y: float) -> bool:
        top = top_at(self.top, x)
        low = top - CEILING[0] if stub.low is None else stub.low
        high = top - CEILING[1] if stub.high is None else stub.high
        return stub.left <= x <= stub.right and low <= y <= high

    def places(self) -> list[float]:
        """Return the sides of openings, of what is kept clear round them, of uprights and of stubs [mm]."""
        xs = [x for box in (*self.openings, *grown(self.openings)) for x in (box.left, box.right)]
        xs += [x for pair in self.uprights for x in pair]
        return xs + [x for stub in self.stubs for x in (stub.left, stub.right)]

    def heights(self) -> list[float]:
        """Return the lower and upper ends of openings, of what is kept clear, of levels and stubs [mm]."""
        ys = [y for box in (*self.openings, *grown(self.openings)) for y in (box.low, box.high)]
        ys += [y for pair in self.levels for y in pair]
        return ys + [y for stub in self.stubs for y in (stub.low, stub.high) if y is not None]

    def slopes(self) -> tuple[Line, ...]:
        """Return the ends of the zone under the ceiling, and the ceiling."""
        near, far = (tuple((x, y - drop) for x, y in self.top) for drop in CEILING)
        return far, near, self.top


def grown(openings: tuple[Box, ...]) -> list[Box]:
    """Return openings with what a zone keeps clear of round them."""
    return [Box(b.left - CLEAR, b.right + CLEAR, b.low - CLEAR, b.high + CLEAR) for b in openings]


def level_sheet(
    wall: Item, face: str, external: bool, joins: list[str], *, feared: bool = False
) -> LevelSheet:
    """Return a face with its zones for a cable that joins these devices.

    Parameters
    ----------
    external : bool
        Whether external corners make zones.
    feared : bool, optional
        Whether a door whose lock side is not known is taken to have it on either.
    """
    side = wall.get(face, {})
    openings = tuple(Box(o["x"], o["x"] + o["width"], o["y"], o["y"] + o["height"]) for o in wall["openings"])
    corners = [*side.get("internal_corners", []), *(side.get("external_corners", []) if external else [])]
    pairs = [(x, x) for x in corners] + [_sides(o, feared=feared) for o in wall["openings"]]
    uprights = [(left - BESIDE[1], left - BESIDE[0]) for left, _ in pairs if math.isfinite(left)]
    uprights += [(right + BESIDE[0], right + BESIDE[1]) for _, right in pairs if math.isfinite(right)]
    levels = (FLOOR, WORKTOP) if side.get("worktop") else (FLOOR,)
    bare = LevelSheet(wall["length"], roof(wall), openings, levels, tuple(uprights))
    devices = [a for a in wall["accessories"] if a["id"] in joins and a["face"] == face]
    stubs = [stub for a in devices if a["kind"] not in NO_ZONE for stub in _stubs(bare, a)]
    return LevelSheet(wall["length"], roof(wall), openings, levels, tuple(uprights), tuple(stubs))


def _sides(opening: Item, *, feared: bool) -> tuple[float, float]:
    """Return the edges of an opening beside which a zone runs up; infinite where none does."""
    unknown = "both" if feared else ""
    which = {"window": "both", "door": opening.get("lock_side", unknown)}.get(opening["kind"], "")
    left = opening["x"] if which in {"left", "both"} else -math.inf
    return left, opening["x"] + opening["width"] if which in {"right", "both"} else math.inf


def _stubs(sheet: LevelSheet, device: Item) -> list[Stub]:
    """Return the ways from a device outside the level zones to each zone that is nearest to its centre."""
    x, y, top = device["x"], device["y"], top_at(sheet.top, device["x"])
    bands = [
        ((top - CEILING[1], top - CEILING[0]), (None, None)),
        *((level, level) for level in sheet.levels),
    ]
    gaps = [(_gap(y, _left_of(sheet, x, band)), band[0] > y, ends) for band, ends in bands]
    least = min(gap for gap, _, _ in gaps)
    if least <= 0.001 or math.isinf(least):
        return []
    low, high = y - device["height"] / 2, y + device["height"] / 2
    left, right = x - device["width"] / 2, x + device["width"] / 2
    return [
        Stub(left, right, low, ends[0]) if up else Stub(left, right, ends[1], high)
        for gap, up, ends in gaps
        if gap <= least + 0.001
    ]


def _left_of(sheet: LevelSheet, x: float, band: tuple[float, float]) -> list[tuple[float, float]]:
    """Return what openings leave of a level zone on one upright line [mm]."""
    left = [(max(band[0], 0.0), band[1])]
    for box in grown(sheet.openings):
        if box.left < x < box.right:
            cut = [((low, min(high, box.low)), (max(low, box.high), high)) for low, high in left]
            left = [piece for pair in cut for piece in pair]
    return [(low, high) for low, high in left if low < high]


def _gap(y: float, pieces: list[tuple[float, float]]) -> float:
    return min((max(low - y, y - high, 0.0) for low, high in pieces), default=math.inf)
