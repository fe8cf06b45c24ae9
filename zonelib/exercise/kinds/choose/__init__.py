"""The ``choose`` kind: tick what is right, worked out from a case or stated by the tutor."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.choose.answer import ChooseAnswer, canonical
from zonelib.exercise.kinds.choose.criteria import CRITERIA
from zonelib.exercise.kinds.choose.fitting import ChooseFacts, faults, frozen
from zonelib.exercise.kinds.choose.marking import CHECKS, mark
from zonelib.exercise.kinds.choose.picture import blank, scenes
from zonelib.exercise.kinds.choose.task import ChooseTask

__all__ = ["KIND"]

KIND = Kind(
    name="choose",
    task=ChooseTask,
    answer=ChooseAnswer,
    facts=ChooseFacts,
    criteria=CRITERIA,
    checks=tuple(CHECKS),
    nothing="Nothing is chosen yet.",
    empty=lambda answer: not answer.chosen,
    canonical=canonical,
    faults=faults,
    frozen=frozen,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
