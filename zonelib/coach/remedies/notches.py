"""Change a notch in a joist: less deep, elsewhere, in the top, or a hole in its place."""

from collections.abc import Iterator
from typing import Any

import shapely

from zonelib.coach.remedies.holes import nearest_inside
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task, swapped
from zonelib.rules.hole_region import hole_region
from zonelib.rules.timber_limits import NotchLimits
from zonelib.rules.words import mm
from zonelib.site.timber import Hole, Notch
from zonelib.site.tolerance import above

__all__ = ["hole_instead", "mend_notch"]


def mend_notch(task: Task) -> Iterator[Advice]:
    """Yield the notch with what is amiss changed to the nearest value that is allowed."""
    notch, limits = _notch(task), task.pack.joists
    if notch is None or limits is None:
        return
    change = _within(task, notch, limits.notch)
    for x in _places(task, notch.model_copy(update=change), limits.notch):
        new = notch.model_copy(update={**change, "x": x})
        kind = "move-notch" if x != notch.x else "smaller-notch"
        words = say(
            "notch", notch=notch.id, x=mm(x), depth=mm(new.depth), length=mm(new.length), edge=new.edge
        )
        joist = task.joist.model_copy(update={"notches": swapped(task.joist.notches, new)})
        yield Remedy(kind, words, say("notch-cost"), task.with_joist(joist))


def _notch(task: Task) -> Notch | None:
    return next((one for one in task.joist.notches if one.id == task.finding.subject), None)


def _within(task: Task, notch: Notch, limits: NotchLimits) -> dict[str, Any]:
    """Return size and edge of the notch as the limits allow them; a limit is never rounded up."""
    depth = task.joist.depth
    change: dict[str, Any] = {"depth": min(notch.depth, limits.depth * depth)}
    if limits.length is not None:
        change["length"] = min(notch.length, limits.length * depth)
    if notch.edge not in limits.edges:
        change["edge"] = limits.edges[0]
    return change


def _places(task: Task, notch: Notch, limits: NotchLimits) -> list[float]:
    """Return the nearest centre in what is allowed from each support, clear of every hole [mm]."""
    span, half = task.joist.span, notch.length / 2
    low, high = (limits.start or 0.0) * span + half, (limits.to or 0.5) * span - half
    free = [shapely.box(*ends, 1.0) for ends in ((low, 0.0, high), (span - high, 0.0, span - low))
            if low <= high]  # fmt: skip
    clear = (limits.clear_of_holes or 0.0) + half
    reach = [(hole, clear + hole.diameter / 2) for hole in task.joist.holes]
    taken = shapely.union_all([shapely.box(one.x - by, 0.0, one.x + by, 1.0) for one, by in reach])
    area = shapely.union_all(free).difference(taken)
    place = nearest_inside(area, notch.x, 0.5)
    return [place[0]] if place else []


def hole_instead(task: Task) -> Iterator[Advice]:
    """Yield a hole as wide as the notch was deep in its place, where a joist may have one."""
    notch = _notch(task)
    if notch is None or task.pack.joists is None:
        return
    rest = tuple(one for one in task.joist.notches if one.id != notch.id)
    whole = task.joist.model_copy(update={"notches": rest})
    region = hole_region(whole, task.pack, diameter=notch.depth)
    place = nearest_inside(region.area, notch.x, task.joist.depth / 2)
    if place and not above(notch.depth, notch.length):
        hole = Hole(id=notch.id, x=place[0], y=place[1], diameter=notch.depth)
        joist = whole.model_copy(update={"holes": (*whole.holes, hole)})
        facts = {"notch": notch.id, "x": mm(place[0]), "y": mm(place[1]), "size": mm(notch.depth)}
        cost = say("hole-instead-cost")
        yield Remedy("hole-instead", say("hole-instead", **facts), cost, task.with_joist(joist))
