"""Move a screw to the nearest place where no cable is expected."""

import math
from collections.abc import Iterator

from zonelib.coach.remedies.holes import nearest_inside
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.fixing_rules import avoid_region
from zonelib.rules.words import mm
from zonelib.site.geometry import face_outline

__all__ = ["move_fixing"]

CLEAR = 0.01
"""How far beyond the region to avoid the new place lies, so that it is clearly out of it [mm]."""


def move_fixing(task: Task) -> Iterator[Advice]:
    """Yield the fixing at the nearest free place of its face."""
    fixing = next(one for one in task.case.fixings if one.id == task.finding.subject)
    wall = task.site.surfaces[fixing.wall].wall
    avoid = avoid_region(wall, fixing.face, task.pack, diameter=fixing.diameter).buffer(CLEAR)
    place = nearest_inside(face_outline(wall).difference(avoid), fixing.x, fixing.y)
    if place is None:
        yield Impossible("move-fixing", say("no-fixing", face=fixing.face, wall=fixing.wall))
        return
    moved = fixing.model_copy(update={"x": place[0], "y": place[1]})
    fixings = tuple(moved if one.id == fixing.id else one for one in task.case.fixings)
    away = math.dist((fixing.x, fixing.y), place)
    words = say("move-fixing", fixing=fixing.id, x=mm(place[0]), y=mm(place[1]))
    cost = say("move-fixing-cost", away=mm(away, places=0))
    yield Remedy("move-fixing", words, cost, task.case.model_copy(update={"fixings": fixings}))
