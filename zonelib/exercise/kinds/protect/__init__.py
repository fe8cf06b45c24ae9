"""The ``protect`` kind: a route is given; choose what makes it acceptable where it runs."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.protect.answer import ProtectAnswer, canonical
from zonelib.exercise.kinds.protect.criteria import CRITERIA
from zonelib.exercise.kinds.protect.fitting import faults
from zonelib.exercise.kinds.protect.marking import CHECKS, mark
from zonelib.exercise.kinds.protect.picture import blank, scenes
from zonelib.exercise.kinds.protect.task import ProtectTask
from zonelib.rules.engine import ROUTE_RULES

__all__ = ["KIND"]

KIND = Kind(
    name="protect",
    task=ProtectTask,
    answer=ProtectAnswer,
    criteria=CRITERIA,
    checks=tuple(CHECKS),
    rules=tuple(ROUTE_RULES),
    nothing="Nothing is chosen yet.",
    empty=lambda answer: answer.empty,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
