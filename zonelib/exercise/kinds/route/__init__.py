"""The ``route`` kind: run a cable on a wall from its start to all it joins."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.route.answer import RouteAnswer, canonical
from zonelib.exercise.kinds.route.criteria import CRITERIA
from zonelib.exercise.kinds.route.fitting import RouteFacts, faults, frozen
from zonelib.exercise.kinds.route.marking import CHECKS, mark
from zonelib.exercise.kinds.route.picture import blank, scenes
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.rules.engine import ROUTE_RULES

__all__ = ["KIND"]

KIND = Kind(
    name="route",
    task=RouteTask,
    answer=RouteAnswer,
    facts=RouteFacts,
    criteria=CRITERIA,
    checks=tuple(CHECKS),
    rules=tuple(ROUTE_RULES),
    nothing="Nothing is drawn yet.",
    empty=lambda answer: answer.empty,
    canonical=canonical,
    faults=faults,
    frozen=frozen,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
