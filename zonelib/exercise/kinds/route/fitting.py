"""Whether a route's task fits its case, and what of its model answer is frozen."""

from collections.abc import Iterator
from typing import Any

from zonelib.exercise.cabling.cabling import Cabling
from zonelib.exercise.cabling.task import cable_faults
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault, FileFault
from zonelib.site.fields import Number, Piece
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

__all__ = ["RouteFacts", "faults", "frozen"]


class RouteFacts(Piece):
    """Length of the shortest run, and how much of the model answer's is covered beyond what is given [mm]."""

    shortest: Number
    covered: Number


def frozen(exercise: Exercise, _: Case, pack: Pack, model: RouteAnswer) -> dict[str, Any]:
    """Return what other answers are compared with."""
    run = _model(exercise, pack, model)
    shortest = exercise.task_as(RouteTask).shortest or round(run.length, 3)
    return {"shortest": shortest, "covered": round(run.covered, 3)}


def _model(exercise: Exercise, pack: Pack, model: RouteAnswer) -> Cabling:
    """Return the model answer in its case.

    Raises
    ------
    FileFault
        If it makes no route.
    """
    task = exercise.task_as(RouteTask)
    data = {**exercise.case, "routes": [task.case_route(model)]}
    return Cabling(task, case_from_data(data, pack.vocabulary, file="the model answer"), pack)


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names in the task that the case or the pack does not know, and what is amiss in the model."""
    task = exercise.task_as(RouteTask)
    found = list(cable_faults(task, "route", case, pack))
    if "via" in task.open and not task.room:
        found.append(Fault("route.open", '"via" for a single wall', "depth, protection, rcd"))
    yield from found or _model_faults(exercise, pack)


def _model_faults(exercise: Exercise, pack: Pack) -> Iterator[Fault]:
    model = RouteAnswer.model_validate(exercise.model)
    try:
        _model(exercise, pack, model)
    except FileFault as fault:
        yield from (
            Fault(
                one.path.replace(f"routes.{exercise.task_as(RouteTask).id}", "model"), one.found, one.allowed
            )
            for one in fault.faults
        )
