"""The ``number`` kind on the pad: one field for a number with its unit, below a drawing."""

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, figured

__all__ = ["PAD"]


def _named(task: NumberTask) -> str:
    """Name what is asked about as the drawing does."""
    thing = {"largest-hole": "hole", "deepest-notch": "notch"}.get(task.ask, "cable")
    leg = f", leg {task.leg}" if task.leg else ""
    return f"{thing} {task.of}{leg}" + (f", seen from the {task.face}" if task.face else "")


class _NumberPad(PadKind):
    """A number as it was written: the marking reads 12.5 and 12,5 alike."""

    name = "number"
    intro = "start-number"

    def task(self, bundle: Bundle) -> Data:
        task = bundle.exercise.task_as(NumberTask)
        about = f"The question is about {_named(task)}."
        return {**figured(bundle), "about": about, "unit": task.unit, "allowed": list(task.allowed)}

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:  # noqa: ARG002  nothing to be placed
        return []

    def count(self, answer: Data) -> str:
        value = answer.get("value")
        return "nothing" if value in (None, "") else f"the number {value}"

    def still(self, bundle: Bundle, result: Result) -> Scene:  # noqa: ARG002  a number is no part of it
        return bundle.kind.blank(bundle)[0]


PAD = _NumberPad()
