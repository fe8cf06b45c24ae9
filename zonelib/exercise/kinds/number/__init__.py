"""The ``number`` kind: a number that the engine works out from the case when it marks."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.number.answer import NumberAnswer, canonical
from zonelib.exercise.kinds.number.criteria import CRITERIA
from zonelib.exercise.kinds.number.fitting import faults
from zonelib.exercise.kinds.number.marking import CHECKS, mark
from zonelib.exercise.kinds.number.picture import blank, scenes
from zonelib.exercise.kinds.number.task import NumberTask

__all__ = ["KIND"]

KIND = Kind(
    name="number",
    task=NumberTask,
    answer=NumberAnswer,
    criteria=CRITERIA,
    checks=tuple(CHECKS),
    nothing="No number is given yet.",
    empty=lambda answer: answer.empty,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
