"""How a number is marked."""

from collections.abc import Callable
from dataclasses import dataclass

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion, Outcome, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.number.answer import NumberAnswer, NumberFlaw, as_number
from zonelib.exercise.kinds.number.quantity import Quantity, quantity
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.told import Message
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import mm
from zonelib.site.faults import Fault, FileFault
from zonelib.site.tolerance import above, below

__all__ = ["CHECKS", "mark"]

HALF = 0.5


@dataclass(frozen=True)
class Given:
    """A number beside the one that is asked, both in the task's unit."""

    value: float
    asked: Quantity
    task: NumberTask


def mark(bundle: Bundle, answer: NumberAnswer) -> Judged:
    """Work out the number that is asked and compare.

    Raises
    ------
    FileFault
        If the case gives no such number: the bundle was not made by `freeze` from a checked exercise.
    """
    task = bundle.exercise.task_as(NumberTask)
    asked = bundle.once(_asked)
    if asked is None:
        raise FileFault(
            "the exercise", [Fault("number", "no number to compare with", "a case that gives one")]
        )
    try:
        given = Given(_within(answer, task), asked, task)
    except NumberFlaw as flaw:
        lost = withheld(bundle.criteria, str(flaw), check="", until=str(flaw))
        return Judged(lost, (Message(0, "Not taken as an answer", str(flaw)),))
    criteria = decide(bundle.criteria, lambda rule: CHECKS[rule.check or "value"](given))
    return Judged(criteria, _messages(bundle, criteria, given))


def _asked(bundle: Bundle) -> Quantity | None:
    return quantity(bundle.case, bundle.pack, bundle.exercise.task_as(NumberTask))


def _within(answer: NumberAnswer, task: NumberTask) -> float:
    """Return the number, refused where it is none or lies outside of what is possible."""
    low, high = task.allowed
    value = as_number(answer.value, unit=task.unit, allowed=task.allowed)
    if below(value, low) or above(value, high):
        raise NumberFlaw(
            f"{_said(value, task)} is not possible here. Give a number from {low:g} to {high:g}."
        )
    return value


def _said(value: float, task: NumberTask) -> str:
    return f"{mm(value, places=3)} {task.unit}"


def _value(given: Given) -> Outcome:
    task, off = given.task, abs(given.value - given.asked.value)
    if not above(off, task.tolerance):
        return 1.0, f"{_said(given.value, task)} is within {_said(task.tolerance, task)} of it."
    side = "less" if given.value < given.asked.value else "more"
    if not above(off, task.half):
        return HALF, f"{_said(given.value, task)} is near, and a little {side} than it is."
    return 0.0, f"{_said(given.value, task)} is {side} than it is."


CHECKS: dict[str, Callable[[Given], Outcome]] = {"value": _value}


def _messages(bundle: Bundle, criteria: tuple[Criterion, ...], given: Given) -> tuple[Message, ...]:
    """Return how one comes to the number, where it is not right yet; the number itself stays to be found."""
    if all(one.met for one in criteria):
        return ()
    clause = f" {Rulebook(bundle.pack).cite(given.asked.clause)}" if given.asked.clause else ""
    return (Message(0, "How to come to it", given.asked.how + clause),)
