"""Straight runs: a route's legs as a builder sees them, however many points they were drawn with."""

import math
from itertools import pairwise

from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE

__all__ = ["straight_runs"]

SAME_WAY = 1e-6
"""Sine of the angle below which two legs run the same way."""


def straight_runs(route: Route) -> list[list[int]]:
    """Return the legs of a route in straight runs of one depth, covering and way.

    Parameters
    ----------
    route : Route
        The route.

    Returns
    -------
    list of list of int
        Legs counted from 0; a leg of no length is left out and ends no run.
    """
    runs: list[list[int]] = []
    for leg in range(len(route.points) - 1):
        if math.hypot(*_way(route, leg)) <= TOLERANCE:
            continue
        if runs and _goes_on(route, runs[-1][0], leg):
            runs[-1].append(leg)
        else:
            runs.append([leg])
    return runs


def _way(route: Route, leg: int) -> tuple[float, float]:
    (x0, y0), (x1, y1) = list(pairwise(route.points))[leg]
    return x1 - x0, y1 - y0


def _goes_on(route: Route, first: int, leg: int) -> bool:
    (x0, y0), (x1, y1) = _way(route, first), _way(route, leg)
    ahead = x0 * x1 + y0 * y1 > 0
    straight = abs(x0 * y1 - y0 * x1) <= SAME_WAY * math.hypot(x0, y0) * math.hypot(x1, y1)
    parts = list(zip(route.depth, route.protection, route.via, strict=True))
    same = parts[first] == parts[leg]
    return ahead and straight and same
