"""A room's plan: its edges, the corner at each of its points, and what is amiss with it."""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

import shapely
from shapely import LinearRing, Polygon

from zonelib.site.tolerance import TOLERANCE

__all__ = ["Corner", "corner_at", "edges", "floor_area", "plan_flaw"]

Point = tuple[float, float]
Edge = tuple[Point, Point]
Corner = Literal["internal", "external"]

STRAIGHT = 1e-6
"""Turns smaller than this are none: a micrometre in a metre [rad]."""


def edges(plan: Sequence[Point]) -> list[Edge]:
    """Return the edges of a plan, one for each wall, in the order of the walls."""
    return list(pairwise((*plan, plan[0])))


def floor_area(plan: Sequence[Point]) -> Polygon:
    """Return the floor of a room [mm]."""
    return Polygon(plan)


def corner_at(plan: Sequence[Point], index: int) -> Corner | None:
    """Return the corner at one point of a clockwise plan, or None where the wall goes straight on.

    A right turn is an angle of two walls as in any room's corner, a left turn one as at a chimney breast.
    """
    before, here, after = plan[index - 1], plan[index], plan[(index + 1) % len(plan)]
    turn = _turn(before, here, after)
    if abs(turn) < STRAIGHT:
        return None
    return "internal" if turn < 0 else "external"


def _turn(before: Point, here: Point, after: Point) -> float:
    """Return the change of direction at a point, to the left above 0 [rad]."""
    (x0, y0), (x1, y1), (x2, y2) = before, here, after
    first, then = math.atan2(y1 - y0, x1 - x0), math.atan2(y2 - y1, x2 - x1)
    return math.remainder(then - first, math.tau)


def plan_flaw(plan: Sequence[Point]) -> tuple[str, str] | None:
    """Return what is amiss with a plan and what is allowed, or None where it is sound."""
    for number, (start, end) in enumerate(edges(plan), start=1):
        if math.dist(start, end) <= TOLERANCE:
            return f"wall {number} of no length", "points that differ, the first not said again at the end"
    ring = LinearRing(plan)
    if not ring.is_simple or shapely.area(Polygon(plan)) <= TOLERANCE:
        return "walls that cross or touch", "a plan whose walls meet at their ends only"
    if ring.is_ccw:
        return "points that run anticlockwise", "points clockwise, seen from above, y up the page"
    return None
