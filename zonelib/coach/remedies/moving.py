"""Move a leg, as it is, into the nearest place where it may lie."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely import LineString
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.coach.field import Field, field_of
from zonelib.coach.remedies.edits import cable_cost, retraces, straight, tidy
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.words import leg_words, mm
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Route, Side
from zonelib.site.tolerance import TOLERANCE

__all__ = ["move_leg"]

ROUND = 5.0
"""A new place is given in steps of this much where there is room [mm]."""

Span = tuple[float, float]


@dataclass(frozen=True)
class Shift:
    """A leg, counted from 0, and where it goes across its own direction [mm]."""

    leg: int
    place: float
    by: float


def move_leg(task: Task) -> Iterator[Advice]:
    """Yield the failing legs moved, the shortest move first."""
    shifts = [shift for number in task.numbers for shift in _shifts(task, number - 1)]
    for shift in sorted(shifts, key=lambda one: abs(one.by)):
        route = _moved(task.route, shift)
        if route is not None and not retraces(route):
            yield Remedy("move-leg", _words(task, shift), cable_cost(task, route), task.with_route(route))


def _shifts(task: Task, leg: int) -> Iterator[Shift]:
    """Yield where one leg may go: it must be able to slide along its neighbours or on its accessory."""
    route = task.route
    start, end = route.points[leg : leg + 2]
    way = straight(start, end)
    if not way or route.via[leg] != "wall" or math.dist(start, end) <= TOLERANCE:
        return
    field = field_of(task.case, task.book, _like(route, leg))
    axis = 1 if way == "level" else 0
    for low, high in _free(field, start, end, axis):
        place = _nearest(low, high, start[axis])
        shift = Shift(leg, place, place - start[axis])
        if abs(shift.by) > TOLERANCE and _can_slide(field, route, shift, axis):
            yield shift


def _like(route: Route, leg: int) -> Route:
    return route.model_copy(
        update={"depth": route.depth[leg : leg + 1], "protection": route.protection[leg : leg + 1]}
    )


def _free(field: Field, start: tuple[float, float], end: tuple[float, float], axis: int) -> list[Span]:
    """Return where along one axis a leg, moved as it is, lies in what is allowed [mm]."""
    low, high = sorted((start[1 - axis], end[1 - axis]))
    far = field.length if axis == 0 else max(y for wall, _ in field.placed for _, y in wall.profile)
    sweep = shapely.box(low, 0.0, high, far) if axis == 1 else shapely.box(0.0, low, far, high)
    bad = sweep.difference(field.along(field.allowed, level=axis == 1))
    return _between(sorted(_span(part, axis) for part in shapely.get_parts(bad)), far)


def _span(part: BaseGeometry, axis: int) -> Span:
    return part.bounds[axis], part.bounds[axis + 2]


def _between(taken: list[Span], far: float) -> list[Span]:
    free, reached = [], 0.0
    for low, high in [*taken, (far, far)]:
        if low > reached + TOLERANCE:
            free.append((reached, low))
        reached = max(reached, high)
    return free


def _nearest(low: float, high: float, place: float) -> float:
    """Return the nearest place in a span, a round one where the span has one near that end."""
    if place < low:
        rounded = math.ceil(low / ROUND) * ROUND
        return rounded if rounded <= high else (low + high) / 2
    if place > high:
        rounded = math.floor(high / ROUND) * ROUND
        return rounded if rounded >= low else (low + high) / 2
    return place


def _can_slide(field: Field, route: Route, shift: Shift, axis: int) -> bool:
    """Tell whether both ends stay on an upright or level neighbour, or on the accessory they lie at."""
    points, leg = route.points, shift.leg
    ends = ((points[leg], points[leg - 1] if leg else None, leg - 1),
            (points[leg + 1], points[leg + 2] if leg + 2 < len(points) else None, leg + 1))  # fmt: skip
    return all(
        _on_accessory(field, _at(end, shift.place, axis), end) if other is None
        else route.via[index] == "wall" and abs(end[1 - axis] - other[1 - axis]) <= TOLERANCE
        for end, other, index in ends
    )  # fmt: skip


def _at(point: tuple[float, float], place: float, axis: int) -> tuple[float, float]:
    return (place, point[1]) if axis == 0 else (point[0], place)


def _on_accessory(field: Field, new: tuple[float, float], old: tuple[float, float]) -> bool:
    boxes = [translate(accessory_box(one), start) for one, start in field.targets().values()]
    return any(box.distance(shapely.points(p)) <= TOLERANCE for box in boxes for p in (new,)) and any(
        box.distance(shapely.points(old)) <= TOLERANCE for box in boxes
    )


def _moved(route: Route, shift: Shift) -> Route | None:
    points = list(route.points)
    axis = 1 if straight(points[shift.leg], points[shift.leg + 1]) == "level" else 0
    for at in (shift.leg, shift.leg + 1):
        points[at] = _at(points[at], shift.place, axis)
    moved = tidy(route.model_copy(update={"points": tuple(points)}))
    return moved if len(moved.points) > 1 else None


def _words(task: Task, shift: Shift) -> str:
    start, end = task.route.points[shift.leg : shift.leg + 2]
    level = straight(start, end) == "level"
    way = ("up" if shift.by > 0 else "down") if level else ("right" if shift.by > 0 else "left")
    side = "above the floor" if level else "from the left end"
    words = say(
        "move-leg", legs=leg_words([shift.leg + 1]), way=way, by=mm(abs(shift.by)), place=mm(shift.place),
        side=side,
    )  # fmt: skip
    axis = 1 if level else 0
    line = LineString([_at(start, shift.place, axis), _at(end, shift.place, axis)])
    zone = _zone_reason(task, line)
    return f"{words} {say('zone', zone=zone)}" if zone else words


def _zone_reason(task: Task, line: LineString) -> str:
    """Return the reason of the zone that most of a line lies in, on the finding's face."""
    face: Side = "rear" if task.finding.where.face == "rear" else "front"
    best = ("", TOLERANCE)
    for wall, start in field_of(task.case, task.book, task.route).placed:
        here = translate(line, -start)
        for zone in task.site.surfaces[wall.id].pieces(face, task.route.joins):
            length = zone.area.intersection(here).length
            best = (zone.reason, length) if length > best[1] + TOLERANCE else best
    return best[0]
