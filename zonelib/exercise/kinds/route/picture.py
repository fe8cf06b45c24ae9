"""The drawings of a route: the wall or room to draw in, and the same with the marked answer."""

from zonelib.draw import EVERY_PART, Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import as_asked, as_marked
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result

__all__ = ["blank", "scenes"]

BLANK = EVERY_PART - {"safety", "zones", "other-zones", "routes", "findings", "points"}


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the wall or room as the question shows it."""
    return (as_asked(bundle.case, bundle.exercise.task_as(RouteTask), bundle.pack, show=BLANK),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the front, and the rear of a single wall where something fails there."""
    return as_marked(result, bundle.exercise.task_as(RouteTask), bundle.pack)
