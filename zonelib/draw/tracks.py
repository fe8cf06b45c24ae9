"""Where the legs of a route lie in a drawing: on its wall, or along the walls of a room in a row."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from zonelib.rules.legs import Leg, legs_by_wall, legs_of
from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Case, Route, Wall
from zonelib.site.row import Row

__all__ = ["Void", "legs_on", "place_on", "routes_in", "void_line", "voids_of"]

Point = tuple[float, float]
Void = tuple[Point, Point, str]
"""Where a route leaves the wall, where it comes back, and through which void."""


def routes_in(case: Case, wall: Wall) -> Iterator[Route]:
    """Yield the routes to be drawn on a wall; in a room those of its walls as well, laid in its row."""
    for route in case.routes:
        if isinstance(wall, Row):
            if route.room == wall.id:
                yield route
            yield from (_moved(route, one.id, start) for one, start in wall.placed if one.id == route.wall)
        elif route.wall == wall.id:
            yield route


def _moved(route: Route, wall: str, start: float) -> Route:
    points = tuple((x + start, y) for x, y in route.points)
    return route.model_copy(update={"points": points, "wall": None, "room": wall.rpartition(".")[0]})


def legs_on(route: Route, wall: Wall, book: Rulebook) -> tuple[Leg, ...]:
    """Return the legs of a route as they lie on a wall, in order; in a row they are cut at the corners."""
    if not isinstance(wall, Row):
        return legs_of(route, wall, book)
    found = legs_by_wall(route, wall.ring, book)
    shifted = (_shifted(leg, wall.starts[index]) for index, legs in found.items() for leg in legs)
    return tuple(sorted(shifted, key=lambda leg: leg.from_mm))


def _shifted(leg: Leg, by: float) -> Leg:
    (x0, y0), (x1, y1) = leg.start, leg.end
    return replace(leg, start=(x0 + by, y0), end=(x1 + by, y1))


def place_on(point: Point, wall: Wall) -> Point:
    """Return where a point of a route lies on a wall; in a row, past its end it begins anew."""
    if not isinstance(wall, Row):
        return point
    index, along = wall.ring.at(point[0])
    return wall.starts[index] + along, point[1]


def voids_of(route: Route, wall: Wall) -> Iterator[Void]:
    """Yield the legs of a route that run through a void."""
    for (start, end), via in zip(pairwise(route.points), route.via, strict=True):
        if via != "wall":
            yield place_on(start, wall), place_on(end, wall), via


def void_line(void: Void, wall: Wall, rise: float) -> tuple[Point, ...]:
    """Return the way through a void as it is drawn: a little above the ceiling or below the floor."""
    start, end, via = void
    high = max(y for _, y in wall.profile) + rise if via == "ceiling-void" else -rise
    return start, (start[0], high), (end[0], high), end
