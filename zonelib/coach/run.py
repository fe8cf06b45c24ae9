"""A way through the graph as a route: legs as long as they go straight, with way and covering."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString

from zonelib.coach.field import Field
from zonelib.coach.ways import Ways
from zonelib.site.model import Route, Via
from zonelib.site.tolerance import TOLERANCE

__all__ = ["length_of", "run_of"]

Point = tuple[float, float]


@dataclass(frozen=True)
class Step:
    """One step of a way.

    Attributes
    ----------
    start, end : tuple of float
        Its ends in the route's x and y [mm].
    via : str
        ``wall``, or the void it goes through.
    bare : bool
        Whether it needs no covering.
    """

    start: Point
    end: Point
    via: Via
    bare: bool

    def goes_on(self, other: "Step") -> bool:
        """Tell whether another step goes on in the same direction, void and covering."""
        same = (self.via, self.bare) == (other.via, other.bare)
        return same and self.via == "wall" and _way(self) == _way(other)


def _way(step: Step) -> tuple[int, int]:
    """Return which way a step goes along each axis: a run may come back the way it went."""
    return _sign(step.end[0] - step.start[0]), _sign(step.end[1] - step.start[1])


def _sign(length: float) -> int:
    return (length > TOLERANCE) - (length < -TOLERANCE)


def run_of(ways: Ways, nodes: Sequence[int], route: Route, *, covering: str) -> Route:
    """Return a way through the graph as a route, coverings where it leaves what is allowed without."""
    legs = _legs(list(_steps(ways, nodes)))
    points = [legs[0].start, *(leg.end for leg in legs)] if legs else [ways.place(nodes[0])] * 2
    given = route.protection[0]
    return route.model_copy(
        update={
            "points": tuple((round(x, 3), round(y, 3)) for x, y in points),
            "depth": route.depth[:1] * max(len(legs), 1),
            "protection": tuple(given if leg.bare else covering for leg in legs) or (given,),
            "via": tuple(leg.via for leg in legs) or ("wall",),
        }
    )


def _steps(ways: Ways, nodes: Sequence[int]) -> Iterator[Step]:
    """Yield the steps that lead anywhere; over the row's end the x goes on."""
    free = ways.field.allowed.buffer(2 * TOLERANCE, join_style="mitre")
    last, lap = len(ways.xs) - 1, 0.0
    for one, other in pairwise(nodes):
        before, after = one % ways.crossings // len(ways.ys), other % ways.crossings // len(ways.ys)
        (x0, y0), (x1, y1) = ways.place(one), ways.place(other)
        if one % ways.crossings == other % ways.crossings:
            continue
        via = _void(ways, one, other)
        if via is None and {before, after} == {0, last} and last > 1 and y0 == y1 and ways.field.ring:
            lap += ways.field.length if after == 0 else -ways.field.length
            continue
        bare = via is not None or free.covers(LineString([(x0, y0), (x1, y1)]))
        yield Step((x0 + lap, y0), (x1 + lap, y1), via or "wall", bare)


def _void(ways: Ways, one: int, other: int) -> Via | None:
    """Return the void that a step goes through: both nodes are upright, in two columns."""
    upright = min(one, other) >= ways.crossings
    if not upright or (one - ways.crossings) // len(ways.ys) == (other - ways.crossings) // len(ways.ys):
        return None
    low = ways.place(one)[1] <= TOLERANCE and "floor-void" in ways.voids
    return "floor-void" if low else "ceiling-void"


def _legs(steps: Sequence[Step]) -> list[Step]:
    legs: list[Step] = []
    for step in steps:
        if legs and legs[-1].goes_on(step):
            legs[-1] = Step(legs[-1].start, step.end, step.via, step.bare)
        else:
            legs.append(step)
    return legs


def length_of(field: Field, route: Route) -> float:
    """Return the true length of a route: through a void it goes straight across the plan [mm]."""
    legs = zip(pairwise(route.points), route.via, strict=True)
    return sum(
        math.dist(*ends) if via == "wall" else math.dist(*(field.in_plan(x) for x, _ in ends))
        for ends, via in legs
    )
