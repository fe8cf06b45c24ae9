"""Another way for the part of a route that fails; what need not change is kept."""

import math
from collections.abc import Iterator
from itertools import islice

import shapely
from shapely.affinity import translate

from zonelib.coach.between import Between
from zonelib.coach.field import Field, field_of
from zonelib.coach.remedies.chases import laid_flat
from zonelib.coach.remedies.covering import counting
from zonelib.coach.remedies.edits import cable_cost, retraces, spliced, tidy, way_words
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import covering_words, put_words, say
from zonelib.coach.remedies.task import Task
from zonelib.coach.solver import Blocked, Cost, Solution, shortest_route
from zonelib.rules.words import leg_words, listed, mm
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE

__all__ = ["another_way", "covered_way", "reach"]

MOST_WINDOWS = 12
MOST_JOINED = 5

Point = tuple[float, float]


def another_way(task: Task) -> Iterator[Advice]:
    """Yield the failing legs led another way, the smallest change first; then the whole route."""
    if not task.numbers or any(task.route.via[number - 1] != "wall" for number in task.numbers):
        return
    between = Between(_field(task))
    for first, last in islice(_windows(task), MOST_WINDOWS):
        piece = between.run(task.route.points[first], task.route.points[last + 1])
        if piece is not None:
            yield from _offer(task, laid_flat(task, piece), first, last)
    yield from _whole(task)


def _field(task: Task) -> Field:
    at = (task.numbers or (1,))[0] - 1
    route = task.route.model_copy(
        update={"depth": task.route.depth[at : at + 1], "protection": task.route.protection[at : at + 1]}
    )
    return field_of(task.case, task.book, route, through=task.route.points)


def _windows(task: Task) -> Iterator[tuple[int, int]]:
    """Yield ranges of legs round the failing ones, counted from 0, the smallest first."""
    first, last, end = min(task.numbers) - 1, max(task.numbers) - 1, len(task.route.points) - 2
    spans = ((max(first - before, 0), min(last + more - before, end)) for more in range(end + 1)
             for before in range(more + 1))  # fmt: skip
    yield from dict.fromkeys(spans)


def _offer(task: Task, piece: Route, first: int, last: int) -> Iterator[Advice]:
    route = spliced(task.route, first, last, piece)
    if not retraces(route):
        words = f"{say('another-way', legs=leg_words(range(first + 1, last + 2)))} {_told(task, piece)}"
        yield Remedy("another-way", words, cable_cost(task, route), task.with_route(route))


def _told(task: Task, piece: Route) -> str:
    """Return a new way in words, with its depth where that had to change."""
    way, old = (
        way_words(tidy(piece.model_copy(update={"depth": piece.depth[:1] * len(piece.depth)})).points),
        set(task.route.depth),
    )
    changed = [depth for depth in piece.depth if depth not in old]
    return f"{way} {say('flat', depth=mm(min(changed)))}" if changed else way


def _whole(task: Task) -> Iterator[Advice]:
    """Yield the cheapest run without a covering, or the proof that there is none."""
    found = _solved(task)
    if isinstance(found, Blocked):
        yield from _blocked(task, found)
    elif found is not None:
        route = laid_flat(task, found.route)
        words = f"{say('whole-way')} {_told(task, route)}"
        yield Remedy("another-way", words, cable_cost(task, route), task.with_route(route))


def covered_way(task: Task) -> Iterator[Advice]:
    """Yield the cheapest run that is covered where no zone serves; only where none does without."""
    if not isinstance(_solved(task), Blocked):
        return
    for name in counting(task):
        found = _solved(task, cost=Cost(covering=1.0), covering=name)
        if isinstance(found, Solution):
            route = laid_flat(task, found.route)
            covering = task.pack.protections[name].words
            words = f"{say('covered-way', covering=covering, **put_words(name))} {_told(task, route)}"
            cost = f"{cable_cost(task, route)} {covering_words(name)['cost']}"
            yield Remedy("covered-way", words, cost, task.with_route(route))


def _solved(task: Task, *, cost: Cost | None = None, covering: str = "") -> Solution | Blocked | None:
    """Return the solver's word on the whole route; None where it joins nothing, or too many."""
    field = _field(task)
    if not 1 <= len(field.targets()) <= MOST_JOINED or len(field.targets()) != len(task.route.joins):
        return None
    return shortest_route(
        task.case, task.pack, field.route, start=_given_start(task, field), cost=cost, covering=covering
    )


def _given_start(task: Task, field: Field) -> Point | None:
    """Return the end that lies at none of the accessories: it is given, and stays."""
    ends = (task.route.points[0], task.route.points[-1])
    return next((point for point in ends if not _at_accessory(field, point)), None)


def _at_accessory(field: Field, point: Point) -> bool:
    boxes = (translate(accessory_box(one), start) for one, start in field.targets().values())
    return any(box.distance(shapely.Point(point)) <= TOLERANCE for box in boxes)


def _blocked(task: Task, found: Blocked) -> Iterator[Impossible]:
    missed = listed([name for name in found.missed if name])
    if not found.proven or not missed:
        return
    if math.isinf(found.gap):
        yield Impossible("another-way", say("no-way-at-all", joins=listed(list(task.route.joins))))
    else:
        yield Impossible("another-way", say("no-way", missed=missed, gap=mm(found.gap)))


def reach(task: Task) -> Iterator[Advice]:
    """Yield the route led on to the one accessory that it misses, from either end; then a new route."""
    between = Between(_field(task))
    for name in _missed(task, between.field):
        for at_end in (True, False):
            point = task.route.points[-1 if at_end else 0]
            piece = between.run_to(point, name)
            if piece is not None and math.dist(piece.points[0], piece.points[-1]) > TOLERANCE:
                piece = laid_flat(task, piece)
                route = _led_on(task.route, piece, at_end=at_end)
                if not retraces(route):
                    words = f"{say('reach', name=name)} {_told(task, piece)}"
                    yield Remedy("reach", words, cable_cost(task, route), task.with_route(route))
    yield from _whole(task)


def _missed(task: Task, field: Field) -> list[str]:
    line = shapely.LineString(task.route.points)
    return [
        name for name, (one, start) in field.targets().items()
        if translate(accessory_box(one), start).distance(line) > TOLERANCE
    ]  # fmt: skip


def _led_on(route: Route, piece: Route, *, at_end: bool) -> Route:
    """Return a route with a piece added at one end."""
    points = (*route.points, *piece.points[1:]) if at_end else (*piece.points[:0:-1], *route.points)
    update = {"points": points}
    for name in ("depth", "protection", "via"):
        old, new = getattr(route, name), getattr(piece, name)
        update[name] = (*old, *new) if at_end else (*new[::-1], *old)
    return tidy(route.model_copy(update=update))
