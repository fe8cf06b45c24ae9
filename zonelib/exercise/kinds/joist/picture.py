"""The drawings of a joist: as it is given, and with the marked cuts and where cutting is allowed."""

from zonelib.draw import Scene
from zonelib.draw.joist import joist_scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.exercise.marking import Result
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["blank", "scenes"]


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the joist as the question shows it."""
    return (joist_scene(_joist(bundle, bundle.case), bundle.pack),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the joist with the cuts of an answer, those that fail under their numbers."""
    if result.case is None or result.verdict is None:
        return ()
    numbers: dict[str, list[int]] = {}
    for n, one in enumerate(result.verdict.failures, start=1):
        for name in filter(None, {one.subject, one.where.other}):
            numbers.setdefault(name, []).append(n)
    return (joist_scene(_joist(bundle, result.case), bundle.pack, numbers=numbers, limits=True),)


def _joist(bundle: Bundle, case: Case) -> Joist:
    name = bundle.exercise.task_as(JoistTask).joist
    return next(one for one in case.joists if one.id == name)
