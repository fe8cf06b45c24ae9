"""How hard a room is: how many legs, how much room to be out, how many traps."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.coach.field import Field, field_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer
from zonelib.exercise.kinds.fixings.hanging import free_places
from zonelib.exercise.kinds.fixings.task import FixingsTask
from zonelib.exercise.kinds.number.answer import as_number
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.kinds.zones.measuring import asked_and_free
from zonelib.exercise.marking import Result
from zonelib.exercise.model import Exercise
from zonelib.rules.rulebook import Rulebook
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Difficulty", "margin_of"]

FARTHEST = 100_000.0
"""Where nothing bounds an answer [mm]."""


@dataclass(frozen=True)
class Difficulty:
    """How hard a room is.

    Attributes
    ----------
    legs : int
        Legs of the run that the solver finds, or parts of the model answer.
    margin : float
        How far the model answer could be out at its tightest place [mm].
    traps : int
        Typical answers that lose the marks they lose in the plain exercise.
    """

    legs: int
    margin: float
    traps: int


def margin_of(exercise: Exercise, bundle: Bundle, model: Result) -> float:
    """Return how far a model answer could be out at its tightest place [mm]."""
    measure = MARGINS.get(exercise.kind, _of_findings)
    return round(min(measure(exercise, bundle, model), default=FARTHEST), 1)


def _of_findings(_: Exercise, bundle: Bundle, model: Result) -> Iterator[float]:
    """Yield how far each number that was measured lies from its limit; 0 is said of what merely touches."""
    verdict = model.verdict or bundle.verdict
    for one in verdict.findings:
        if one.unit == "mm" and one.measured and one.limit is not None:
            yield abs(one.measured - one.limit)


def _of_run(_: Exercise, bundle: Bundle, model: Result) -> Iterator[float]:
    """Yield how far each leg lies from where it may not run; the wall's own edges are no danger."""
    if model.case is None:
        return
    route = model.case.routes[0]
    field = field_of(bundle.case, Rulebook(bundle.pack, bundle.case.readings), route)
    for ends, via, name in zip(pairwise(route.points), route.via, route.protection, strict=True):
        if via == "wall":
            yield _leg_margin(field, LineString(ends), covered=name != field.route.protection[0])


def _leg_margin(field: Field, leg: LineString, *, covered: bool) -> float:
    area: BaseGeometry = field.wall_area if covered else field.allowed
    left, bottom, right, top = field.wall_area.bounds
    danger = shapely.box(left, bottom, right, top).difference(area)
    return float(leg.distance(danger)) if not danger.is_empty else FARTHEST


def _of_things(exercise: Exercise, bundle: Bundle, _: Result) -> Iterator[float]:
    """Yield how far each thing hangs from where it may not."""
    task, answer = exercise.task_as(FixingsTask), FixingsAnswer.model_validate(exercise.model)
    wall = bundle.case.wall(task.wall)
    for item in task.items:
        free = free_places(item, answer.places, task, wall, bundle.pack)
        yield float(shapely.Point(answer.places[item.id]).distance(free.boundary))


def _of_number(exercise: Exercise, _: Bundle, __: Result) -> Iterator[float]:
    """Yield how far each typical answer lies from the right one."""
    task = exercise.task_as(NumberTask)
    right = _value(exercise.model, task)
    yield from (abs(_value(one["answer"], task) - right) for one in exercise.wrong)


def _value(answer: dict[str, Any], task: NumberTask) -> float:
    return as_number(answer["value"], unit=task.unit, allowed=task.allowed)


def _of_zones(_: Exercise, bundle: Bundle, __: Result) -> Iterator[float]:
    """Yield how far zones that do not touch lie apart: what is free there has to be left free."""
    asked, _free = bundle.once(asked_and_free)
    areas = [one.area for one in asked]
    for at, area in enumerate(areas):
        apart = (float(area.distance(other)) for other in areas[at + 1 :])
        yield from (one for one in apart if one > TOLERANCE)


MARGINS: dict[str, Callable[[Exercise, Bundle, Result], Iterator[float]]] = {
    "route": _of_run,
    "fixings": _of_things,
    "number": _of_number,
    "zones": _of_zones,
}
"""By kind; the others take what the engine measured."""
