"""A route as the rules see it: legs with their place, size, depths and covering."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise

from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Route, Side, Wall
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Leg", "legs_of"]

Point = tuple[float, float]


@dataclass(frozen=True)
class Leg:
    """One straight piece of a route.

    Attributes
    ----------
    number : int
        Counted from 1.
    start, end : tuple of float
        Its ends [mm, front view].
    from_mm, to_mm : float
        Its ends along the route's centre line [mm].
    width, thickness : float
        Of the cable, or of the conduit or trunking it lies in [mm].
    front_depth, rear_depth : float
        From each finished face to the nearest point of the cable or its covering [mm].
    protection : str
        The covering's name in the pack.
    covered : bool
        Whether the covering counts instead of a zone.
    """

    number: int
    start: Point
    end: Point
    from_mm: float
    to_mm: float
    width: float
    thickness: float
    front_depth: float
    rear_depth: float
    protection: str
    covered: bool

    def depth(self, side: Side) -> float:
        """Return the depth below one face [mm]."""
        return self.front_depth if side == "front" else self.rear_depth

    @property
    def shallower_side(self) -> Side | None:
        """The face it lies nearer to, or None where both depths are equal."""
        if abs(self.front_depth - self.rear_depth) <= TOLERANCE:
            return None
        return "front" if self.front_depth < self.rear_depth else "rear"

    @property
    def direction(self) -> str:
        """``horizontal``, ``vertical`` or ``slanting``."""
        if abs(self.end[1] - self.start[1]) <= TOLERANCE:
            return "horizontal"
        return "vertical" if abs(self.end[0] - self.start[0]) <= TOLERANCE else "slanting"


def legs_of(route: Route, wall: Wall, book: Rulebook) -> tuple[Leg, ...]:
    """Return the legs of a route; a leg of no length keeps its number and is left out."""
    return tuple(leg for leg in _every_leg(route, wall, book) if leg.to_mm - leg.from_mm > TOLERANCE)


def _every_leg(route: Route, wall: Wall, book: Rulebook) -> Iterator[Leg]:
    ends = list(pairwise(route.points))
    marks = list(accumulate((math.dist(*pair) for pair in ends), initial=0.0))
    each = zip(ends, route.depth, route.protection, strict=True)
    for index, ((start, end), depth, protection) in enumerate(each):
        width, thickness = _size(route, protection, book)
        behind = wall.thickness - depth - thickness
        front, rear = (depth, behind) if route.depth_from == "front" else (behind, depth)
        yield Leg(
            index + 1, start, end, marks[index], marks[index + 1], width, thickness,
            front, rear, protection, book.counts(protection),
        )  # fmt: skip


def _size(route: Route, protection: str, book: Rulebook) -> tuple[float, float]:
    """Return width and thickness of what lies in the wall [mm]."""
    usual = book.pack.protections[protection].outer
    if usual is None:
        return route.cable.width, route.cable.thickness
    outer = route.outer or usual
    return outer, outer
