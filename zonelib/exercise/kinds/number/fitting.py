"""Whether a number can be asked of its case."""

from collections.abc import Iterator

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.number.quantity import quantity
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.site.faults import Fault
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["cuts_of", "faults"]


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield what keeps a number from being asked."""
    task = exercise.task_as(NumberTask)
    amiss = [*unknown("number.of", [task.of], _names(task, case)), *_limits(task)]
    yield from amiss or _value(task, case, pack)


def _names(task: NumberTask, case: Case) -> list[str]:
    if task.ask in {"largest-hole", "deepest-notch"}:
        return [name for joist in case.joists for name in cuts_of(joist)]
    return [route.id for route in case.routes]


def cuts_of(joist: Joist) -> list[str]:
    """Return the ids of a joist's holes and notches."""
    return [hole.id for hole in joist.holes] + [notch.id for notch in joist.notches]


def _limits(task: NumberTask) -> Iterator[Fault]:
    low, high = task.allowed
    if low >= high:
        yield Fault("number.allowed", f"{low:g} to {high:g}", "the lesser number first")
    if 0 < task.half <= task.tolerance:
        yield Fault("number.half", f"{task.half:g}", f"more than the tolerance, {task.tolerance:g}, or 0")
    if task.ask == "clear-depth" and task.face is None:
        yield Fault("number.face", "nothing", "front, rear")


def _value(task: NumberTask, case: Case, pack: Pack) -> Iterator[Fault]:
    found, (low, high) = quantity(case, pack, task), task.allowed
    if found is None:
        yield Fault(
            "number", f'"{task.ask}" of {task.of}, for which the case gives not exactly one number', HOW
        )
    elif not low <= found.value <= high:
        wide = f"{mm(found.value, places=3)}, outside of {low:g} to {high:g}"
        yield Fault("number.allowed", wide, "limits that the answer lies within")


HOW = "a case that gives one; leg or face say which is meant where there are several"
