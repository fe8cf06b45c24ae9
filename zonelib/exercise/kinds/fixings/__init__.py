"""The ``fixings`` kind: hang a cupboard or pictures so that no fixing is in danger."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer, canonical
from zonelib.exercise.kinds.fixings.criteria import CHECKS, CRITERIA
from zonelib.exercise.kinds.fixings.fitting import faults
from zonelib.exercise.kinds.fixings.marking import mark
from zonelib.exercise.kinds.fixings.picture import blank, scenes
from zonelib.exercise.kinds.fixings.task import FixingsTask

__all__ = ["KIND"]

KIND = Kind(
    name="fixings",
    task=FixingsTask,
    answer=FixingsAnswer,
    criteria=CRITERIA,
    checks=CHECKS,
    nothing="Nothing is hung yet.",
    empty=lambda answer: not answer.places,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
