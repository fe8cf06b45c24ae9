"""Whether a route's task fits its case, and what of its model answer is frozen."""

from collections.abc import Iterator
from typing import Any

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.fields import Number, Piece
from zonelib.site.model import Case

__all__ = ["RouteFacts", "faults", "frozen"]


class RouteFacts(Piece):
    """Length of the model answer's run, and how much of it is in another covering than given [mm]."""

    shortest: Number
    covered: Number


def frozen(exercise: Exercise, _: Case, __: Pack, model: RouteAnswer) -> dict[str, Any]:
    """Return what other answers are compared with."""
    given = exercise.task_as(RouteTask).protection
    return {"shortest": round(model.length, 3), "covered": round(model.covered(given), 3)}


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names in the task that the case or the pack does not know."""
    task = exercise.task_as(RouteTask)
    accessories = [one.id for wall in case.walls for one in wall.accessories]
    yield from unknown("route.wall", [task.wall], [wall.id for wall in case.walls])
    yield from unknown("route.joins", task.joins, accessories)
    yield from unknown("route.protection", [task.protection], pack.protections)
    yield from unknown("route.protections", task.protections, pack.protections)
