"""The drawings of a given route: as it is given, and with the marked choices."""

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import GIVEN, as_asked, as_given, as_marked
from zonelib.exercise.kinds.protect.task import ProtectTask
from zonelib.exercise.marking import Result

__all__ = ["blank", "scenes"]


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the wall with the route, before anything is chosen."""
    task = bundle.exercise.task_as(ProtectTask)
    case = bundle.case_with(routes=[task.case_route()])
    return (as_given(as_asked(case, task, bundle.pack, show=GIVEN)),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the front, and the rear where something fails there."""
    return as_marked(result, bundle.exercise.task_as(ProtectTask), bundle.pack)
