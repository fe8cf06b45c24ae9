"""The face of a wall as plain inequalities: what is face, opening and zone at one point."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from operator import itemgetter
from typing import TypeAlias

__all__ = ["BAND", "Box", "Ground", "Line", "Sheet", "Strip", "top_at", "zone_floor"]

BAND = 150.0
"""Reach of the top and of each corner [mm]."""

ARC_STEP = math.radians(0.5)
"""Chord of the curved part of the perpendicular band; it errs by 150 (1 - cos 0.25 degrees) = 0.0015 mm."""

Point: TypeAlias = tuple[float, float]
Line: TypeAlias = tuple[Point, ...]


@dataclass(frozen=True)
class Box:
    """An opening by its four sides [mm, front view]."""

    left: float
    right: float
    low: float
    high: float

    def holds(self, x: float, y: float) -> bool:
        """Tell whether the point lies in the interior of the opening."""
        return self.left < x < self.right and self.low < y < self.high


@dataclass(frozen=True)
class Strip:
    """An accessory that serves the face: centre and size [mm]."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class Ground(ABC):
    """A face: its outline and openings; what its zone is, each country says by itself.

    Attributes
    ----------
    length : float
        Length of the wall [mm].
    top : tuple of (x, y)
        Top line [mm], x rising from 0 to the length.
    openings : tuple of Box
        Openings of the wall.
    """

    length: float
    top: Line
    openings: tuple[Box, ...]

    def on_wall(self, x: float, y: float, slack: float = 0.0) -> bool:
        """Tell whether the point lies within the outline, edges included."""
        inside = -slack <= x <= self.length + slack and y >= -slack
        return inside and y <= top_at(self.top, min(max(x, 0.0), self.length)) + slack

    def in_opening(self, x: float, y: float) -> bool:
        """Tell whether the point lies in an opening's interior."""
        return any(box.holds(x, y) for box in self.openings)

    @abstractmethod
    def in_zone(self, x: float, y: float) -> bool:
        """Tell whether the zone permits the point."""

    @abstractmethod
    def places(self) -> list[float]:
        """Return every x at which the zone or an opening may begin or end [mm]."""

    @abstractmethod
    def heights(self) -> list[float]:
        """Return every y at which the zone or an opening may begin or end [mm]."""

    @abstractmethod
    def slopes(self) -> tuple[Line, ...]:
        """Return the lines, level or not, at which the face or its zone ends."""


@dataclass(frozen=True)
class Sheet(Ground):
    """A face with all that makes its zone in the ``uk`` pack.

    Attributes
    ----------
    corners : tuple of float
        The x of each corner that counts [mm].
    strips : tuple of Strip
        Accessories that serve the face.
    cut : bool
        Whether openings cut the strips.
    floor : tuple of (x, y)
        Lower edge of the zone along the top, as a polyline [mm].
    """

    corners: tuple[float, ...]
    strips: tuple[Strip, ...]
    cut: bool
    floor: Line

    def places(self) -> list[float]:
        """Return the sides of openings, corners' bands and strips, and strips' centre lines [mm]."""
        xs = [x for box in self.openings for x in (box.left, box.right)]
        xs += [corner + way * BAND for corner in self.corners for way in (-1, 1)]
        return xs + [s.x + half * s.width / 2 for s in self.strips for half in (-1, 0, 1)]

    def heights(self) -> list[float]:
        """Return the lower and upper ends of openings and strips, and strips' centre lines [mm]."""
        ys = [y for box in self.openings for y in (box.low, box.high)]
        return ys + [s.y + half * s.height / 2 for s in self.strips for half in (-1, 0, 1)]

    def slopes(self) -> tuple[Line, ...]:
        """Return the lower edge of the top's band, and the top."""
        return self.floor, self.top

    def in_zone(self, x: float, y: float) -> bool:
        """Tell whether the top, a corner or a strip permits the point."""
        if y >= top_at(self.floor, x):
            return True
        if any(abs(x - corner) <= BAND for corner in self.corners):
            return True
        return any(self._upright(s, x, y) or self._level(s, x, y) for s in self.strips)

    def _upright(self, strip: Strip, x: float, y: float) -> bool:
        if abs(x - strip.x) > strip.width / 2:
            return False
        low, high = sorted((strip.y, y))
        return not self.cut or not any(
            b.left < x < b.right and low < b.high and high > b.low for b in self.openings
        )

    def _level(self, strip: Strip, x: float, y: float) -> bool:
        if abs(y - strip.y) > strip.height / 2:
            return False
        left, right = sorted((strip.x, x))
        return not self.cut or not any(
            b.low < y < b.high and left < b.right and right > b.left for b in self.openings
        )


def top_at(line: Line, x: float) -> float:
    """Height of a polyline of rising x at one place [mm]."""
    piece = min(max(bisect_left(line, x, key=itemgetter(0)), 1), len(line) - 1)
    (x0, y0), (x1, y1) = line[piece - 1], line[piece]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


@lru_cache(maxsize=64)
def zone_floor(top: Line, *, perpendicular: bool) -> Line:
    """Lower edge of the zone along the top.

    Parameters
    ----------
    top : tuple of (x, y)
        Top line [mm].
    perpendicular : bool
        Whether 150 mm is the shortest distance to the line instead of the vertical one.

    Returns
    -------
    tuple of (x, y)
        Polyline over the same length [mm]; curved parts as chords.
    """
    if not perpendicular:
        return tuple((x, y - BAND) for x, y in top)
    below = [_below(a, b) for a, b in pairwise(top)]
    knots = sorted(set(_knots(top)))
    knots = sorted(set(knots + _switches(below, knots)))
    return _without_needless(tuple((x, min(piece(x) for piece in below)) for x in knots))


def _without_needless(line: Line) -> Line:
    """Drop the points that lie on the straight between their neighbours."""
    kept = [line[0]]
    for (x, y), after in pairwise(line[1:]):
        between = top_at((kept[-1], after), x)
        if abs(between - y) > 1e-9:
            kept.append((x, y))
    return (*kept, line[-1])


def _below(a: Point, b: Point) -> Callable[[float], float]:
    """Lower edge of all points within 150 mm of one piece of the top, by place along the wall."""
    run, rise = b[0] - a[0], b[1] - a[1]
    size = math.hypot(run, rise)
    shift = BAND * rise / size
    ends = (a[0] + shift, b[0] + shift)

    def edge(x: float) -> float:
        if ends[0] <= x <= ends[1]:
            return a[1] + (x - a[0]) * rise / run - BAND * size / run
        centre = a if x < ends[0] else b
        reach = BAND**2 - (x - centre[0]) ** 2
        return centre[1] - math.sqrt(reach) if reach >= 0 else math.inf

    return edge


def _knots(top: Line) -> list[float]:
    length = top[-1][0]
    places = [x for x, _ in top]
    for (x0, y0), (x1, y1) in pairwise(top):
        shift = BAND * (y1 - y0) / math.hypot(x1 - x0, y1 - y0)
        places += [x0 + shift, x1 + shift]
    count = math.ceil(math.pi / ARC_STEP)
    for x, _ in top:
        places += [x + BAND * math.cos(math.pi * i / count) for i in range(count + 1)]
    return [x for x in places if 0 <= x <= length]


def _switches(below: list[Callable[[float], float]], knots: list[float]) -> list[float]:
    """Places between knots where another piece of the top becomes the one that rules."""
    found = []
    for left, right in pairwise(knots):
        first, last = _ruler(below, left), _ruler(below, right)
        if first == last:
            continue
        lo, hi = left, right
        while hi - lo > 1e-9:
            mid = (lo + hi) / 2
            lo, hi = (mid, hi) if _ruler(below, mid) == first else (lo, mid)
        found.append(hi)
    return found


def _ruler(below: list[Callable[[float], float]], x: float) -> int:
    return min(range(len(below)), key=lambda i: below[i](x))
