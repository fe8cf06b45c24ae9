"""The ``joist`` kind: place and size the holes and notches that cables need, and choose coverings."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.joist.answer import JoistAnswer, canonical
from zonelib.exercise.kinds.joist.criteria import CHECKS, CRITERIA, RULES
from zonelib.exercise.kinds.joist.fitting import faults
from zonelib.exercise.kinds.joist.marking import mark
from zonelib.exercise.kinds.joist.picture import blank, scenes
from zonelib.exercise.kinds.joist.task import JoistTask

__all__ = ["KIND"]

KIND = Kind(
    name="joist",
    task=JoistTask,
    answer=JoistAnswer,
    criteria=CRITERIA,
    checks=CHECKS,
    rules=RULES,
    nothing="Nothing is cut yet.",
    empty=lambda answer: not answer.holes and not answer.notches,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
