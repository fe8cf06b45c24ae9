"""The ``inspect`` kind: judge someone's installation, stretch by stretch."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.inspect.answer import InspectAnswer, canonical
from zonelib.exercise.kinds.inspect.criteria import CHECKS, CRITERIA
from zonelib.exercise.kinds.inspect.fitting import faults
from zonelib.exercise.kinds.inspect.marking import mark
from zonelib.exercise.kinds.inspect.picture import blank, scenes
from zonelib.exercise.kinds.inspect.task import InspectTask, walls_of

__all__ = ["KIND"]

KIND = Kind(
    name="inspect",
    task=InspectTask,
    answer=InspectAnswer,
    criteria=CRITERIA,
    checks=CHECKS,
    nothing="Nothing is marked or answered yet.",
    empty=lambda answer: not answer.stretches and not answer.passes,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
    beyond_pad=lambda exercise: " on several walls" if len(walls_of(exercise)) > 1 else "",
)
