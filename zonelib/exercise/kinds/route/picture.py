"""The drawings of a route: the wall or room to draw in, and the same with the marked answer."""

from dataclasses import replace

from zonelib.draw import EVERY_PART, Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import as_asked, as_marked
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

__all__ = ["blank", "scenes", "to_be_cabled"]

BLANK = EVERY_PART - {"safety", "zones", "other-zones", "routes", "findings", "points"}
ZONES = frozenset({"zones", "other-zones"})


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the wall or room as the question shows it, with zones only where it shows these."""
    task = bundle.exercise.task_as(RouteTask)
    if "zones" not in bundle.exercise.show:
        return (as_asked(bundle.case, task, bundle.pack, show=BLANK),)
    scene = as_asked(to_be_cabled(bundle), task, bundle.pack, show=BLANK | ZONES)
    return (replace(scene, shapes=tuple(one for one in scene.shapes if one.part != "routes")),)


def to_be_cabled(bundle: Bundle) -> Case:
    """Return the case with a cable that is not drawn: it tells which zones serve, and which do not."""
    any_way = RouteAnswer(points=((0, 0), (1, 0)))
    route = bundle.exercise.task_as(RouteTask).case_route(any_way)
    return case_from_data({**bundle.exercise.case, "routes": [route]}, bundle.pack.vocabulary)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the front, and the rear of a single wall where something fails there."""
    return as_marked(result, bundle.exercise.task_as(RouteTask), bundle.pack)
