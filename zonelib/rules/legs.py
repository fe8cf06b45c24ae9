"""A route as the rules see it: legs with their place, size, depths and covering."""

import math
from dataclasses import dataclass
from itertools import accumulate, pairwise

from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Route, Side, Wall
from zonelib.site.ring import Ring
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Leg", "leg_lengths", "legs_by_wall", "legs_of"]

Point = tuple[float, float]
Ends = tuple[Point, Point]
Span = tuple[float, float]


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
    """Return the legs of a route in its wall; a leg of no length keeps its number and is left out."""
    whole = (0.0, 1.0)
    return tuple(
        _leg(route, index, ends, whole, marks=marks, wall=wall, book=book)
        for index, (ends, marks) in enumerate(_spans(route, None))
        if route.via[index] == "wall" and marks[1] - marks[0] > TOLERANCE
    )


def legs_by_wall(route: Route, ring: Ring, book: Rulebook) -> dict[int, tuple[Leg, ...]]:
    """Return the legs of a route in a room, cut at the corners, by the place of their wall in the row.

    The walls come in the order in which the route gets to them. A leg that passes a corner has its
    number on both.
    """
    found: dict[int, list[Leg]] = {}
    for index, (ends, marks) in enumerate(_spans(route, ring)):
        if route.via[index] == "wall" and marks[1] - marks[0] > TOLERANCE:
            for part in ring.parts(*ends):
                leg = _leg(
                    route, index, (part.start, part.end), part.shares,
                    marks=marks, wall=ring.walls[part.wall], book=book,
                )  # fmt: skip
                found.setdefault(part.wall, []).append(leg)
    return {wall: tuple(legs) for wall, legs in found.items()}


def leg_lengths(route: Route, ring: Ring | None) -> tuple[float, ...]:
    """Return how long each leg of a route is [mm].

    Parameters
    ----------
    route : Route
        The route.
    ring : Ring or None
        The room it runs round, if it does: a void is crossed straight over the plan.
    """
    legs = zip(pairwise(route.points), route.via, strict=True)
    return tuple(math.dist(*ends) if via == "wall" else _across(ring, *ends) for ends, via in legs)


def _across(ring: Ring | None, start: Point, end: Point) -> float:
    if ring is None:
        return abs(end[0] - start[0])
    return math.dist(ring.in_plan(start[0]), ring.in_plan(end[0]))


def _spans(route: Route, ring: Ring | None) -> list[tuple[Ends, Span]]:
    """Return the ends of each leg, and its marks along the route [mm]."""
    marks = accumulate(leg_lengths(route, ring), initial=0.0)
    return list(zip(pairwise(route.points), pairwise(marks), strict=True))


def _leg(
    route: Route, index: int, ends: Ends, shares: Span, *, marks: Span, wall: Wall, book: Rulebook
) -> Leg:
    protection, depth = route.protection[index], route.depth[index]
    width, thickness = _size(route, protection, book)
    behind = wall.thickness - depth - thickness
    front, rear = (depth, behind) if route.depth_from == "front" else (behind, depth)
    length = marks[1] - marks[0]
    return Leg(
        index + 1, *ends, marks[0] + shares[0] * length, marks[0] + shares[1] * length, width, thickness,
        front, rear, protection, book.counts(protection),
    )  # fmt: skip


def _size(route: Route, protection: str, book: Rulebook) -> tuple[float, float]:
    """Return width and thickness of what lies in the wall [mm]."""
    usual = book.pack.protections[protection].outer
    if usual is None:
        return route.cable.width, route.cable.thickness
    outer = route.outer or usual
    return outer, outer
