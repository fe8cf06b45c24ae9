"""A route as a trainee draws it."""

import math
from itertools import pairwise
from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Id, Number, Piece, Point
from zonelib.site.model import Rcd, Via

__all__ = ["RouteAnswer", "canonical"]

MOST_POINTS = 200
"""More points than any real run has; a bound on what is read."""


class RouteAnswer(Piece):
    """A trainee's route; depth [mm], protection and way are given per leg."""

    points: Annotated[tuple[Point, ...], Field(max_length=MOST_POINTS)] = ()
    depth: Annotated[tuple[Number, ...], Field(max_length=MOST_POINTS)] | None = None
    protection: Annotated[tuple[Id, ...], Field(max_length=MOST_POINTS)] | None = None
    rcd: Rcd | None = None
    via: Annotated[tuple[Via, ...], Field(max_length=MOST_POINTS)] | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing has been drawn."""
        return len(set(self.points)) <= 1


def canonical(answer: RouteAnswer) -> Any:
    """Return a route's data without legs of no length and points in mid-run, from its lower end."""
    legs = [leg for leg in _legs(answer) if leg[0] != leg[1]]
    ahead = _merged(legs)
    back = _merged([(end, start, *set_) for start, end, *set_ in reversed(legs)])
    return min(ahead, back, key=repr), answer.rcd.model_dump() if answer.rcd else None


def _legs(answer: RouteAnswer) -> list[tuple[Any, ...]]:
    count = max(len(answer.points) - 1, 0)
    none = (None,) * count
    parts = (answer.depth or none, answer.protection or none, answer.via or ("wall",) * count)
    return [(*ends, *set_here) for ends, *set_here in zip(pairwise(answer.points), *parts, strict=False)]


def _merged(legs: list[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    merged: list[tuple[Any, ...]] = []
    for start, end, *set_ in legs:
        if merged and merged[-1][2:] == tuple(set_) and _straight(merged[-1][0], start, end):
            merged[-1] = (merged[-1][0], end, *set_)
        else:
            merged.append((start, end, *set_))
    return merged


def _straight(a: Point, b: Point, c: Point) -> bool:
    return math.isclose(math.dist(a, b) + math.dist(b, c), math.dist(a, c), abs_tol=1e-9)
