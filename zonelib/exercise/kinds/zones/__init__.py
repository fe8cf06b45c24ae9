"""The ``zones`` kind: draw where cables are to be expected on a face."""

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds.zones.answer import ZonesAnswer, canonical, is_empty
from zonelib.exercise.kinds.zones.criteria import CHECKS, CRITERIA
from zonelib.exercise.kinds.zones.marking import faults, mark
from zonelib.exercise.kinds.zones.picture import blank, scenes
from zonelib.exercise.kinds.zones.task import ZonesTask

__all__ = ["KIND"]

KIND = Kind(
    name="zones",
    task=ZonesTask,
    answer=ZonesAnswer,
    criteria=CRITERIA,
    checks=CHECKS,
    nothing="No zone is drawn yet.",
    empty=is_empty,
    canonical=canonical,
    faults=faults,
    mark=mark,
    scenes=scenes,
    blank=blank,
    pad=True,
)
