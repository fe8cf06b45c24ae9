"""Changes of a route: legs tidied, values set per leg, and what a new way costs."""

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from typing import Any

import shapely
from shapely import LineString

from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.words import mm
from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE, above

__all__ = ["cable_cost", "retraces", "spliced", "straight", "tidy", "way_words", "with_values"]

Point = tuple[float, float]
PER_LEG = ("depth", "protection", "via")


def straight(start: Point, end: Point) -> str:
    """Return ``level`` or ``upright``, or "" for a slant."""
    if abs(start[1] - end[1]) <= TOLERANCE:
        return "level"
    return "upright" if abs(start[0] - end[0]) <= TOLERANCE else ""


def with_values(route: Route, numbers: Collection[int], **values: Any) -> Route:
    """Return a route with values set on some legs, counted from 1; a value may be a mapping of legs."""
    update = {}
    for name, value in values.items():
        old = getattr(route, name)
        new = value if isinstance(value, dict) else dict.fromkeys(numbers, value)
        update[name] = tuple(new.get(n, one) for n, one in enumerate(old, start=1))
    return route.model_copy(update=update)


def spliced(route: Route, first: int, last: int, piece: Route) -> Route:
    """Return a route with the legs from `first` to `last`, counted from 0, replaced by those of a piece."""
    lap = piece.points[-1][0] - route.points[last + 1][0]
    tail = tuple((x + lap, y) for x, y in route.points[last + 2 :])
    update: dict[str, Any] = {"points": (*route.points[:first], *piece.points, *tail)}
    for name in PER_LEG:
        old, new = getattr(route, name), getattr(piece, name)
        update[name] = (*old[:first], *new, *old[last + 1 :])
    return tidy(route.model_copy(update=update))


def tidy(route: Route) -> Route:
    """Return a route without legs of no length, and with legs that go straight on as one."""
    legs: list[tuple[Any, ...]] = []
    for ends, *rest in zip(pairwise(route.points), *(getattr(route, name) for name in PER_LEG), strict=True):
        start, end = ends
        if math.dist(start, end) <= TOLERANCE:
            continue
        if legs and legs[-1][2:] == tuple(rest) and _goes_on(legs[-1][0], start, end):
            legs[-1] = (legs[-1][0], end, *rest)
        else:
            legs.append((start, end, *rest))
    if not legs:
        return route
    update = {name: tuple(leg[2 + at] for leg in legs) for at, name in enumerate(PER_LEG)}
    return route.model_copy(update={"points": (legs[0][0], *(leg[1] for leg in legs)), **update})


def _goes_on(a: Point, b: Point, c: Point) -> bool:
    return straight(a, c) != "" and math.dist(a, b) + math.dist(b, c) <= math.dist(a, c) + TOLERANCE


def retraces(route: Route) -> bool:
    """Tell whether a route runs back over itself, which nobody would lay."""
    lines = [
        LineString(ends)
        for ends, via in zip(pairwise(route.points), route.via, strict=True)
        if via == "wall" and math.dist(*ends) > TOLERANCE
    ]
    return above(sum(line.length for line in lines), shapely.union_all(lines).length + 1.0)


def cable_cost(task: Task, route: Route) -> str:
    """Return what a new way costs in cable."""
    more = task.length(route) - task.length(task.route)
    name = "cable-same" if abs(more) < 1.0 else "cable-more" if more > 0 else "cable-less"
    return say(name, more=mm(abs(more), places=0))


MOVES_A_SENTENCE = 4


def way_words(points: Sequence[Point]) -> str:
    """Return the moves along some points in words, some to a sentence.

    >>> way_words([(0, 0), (0, 40), (1200, 40)])
    'Go up 40 mm, then right 1,200 mm.'
    """
    moves = list(_moves(points))
    groups = [moves[at : at + MOVES_A_SENTENCE] for at in range(0, len(moves), MOVES_A_SENTENCE)]
    return " ".join(
        f"{'Go' if at == 0 else 'Then go'} {', then '.join(group)}." for at, group in enumerate(groups)
    )


def _moves(points: Sequence[Point]) -> Iterator[str]:
    for (x0, y0), (x1, y1) in pairwise(points):
        across, up = x1 - x0, y1 - y0
        if abs(across) > TOLERANCE and abs(up) > TOLERANCE:
            yield f"on the slant {mm(math.hypot(across, up), places=0)} mm"
        elif abs(across) > TOLERANCE:
            yield f"{'right' if across > 0 else 'left'} {mm(abs(across), places=0)} mm"
        else:
            yield f"{'up' if up > 0 else 'down'} {mm(abs(up), places=0)} mm"
