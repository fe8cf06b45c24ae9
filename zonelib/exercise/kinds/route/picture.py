"""The drawings of a route: the wall to draw on, and the wall with the marked answer."""

from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.site.model import Side

__all__ = ["blank", "scenes"]

PARTS = EVERY_PART - {"safety"}
"""The safety words stand in the page's own text."""

BLANK = PARTS - {"zones", "other-zones", "routes", "findings", "points"}


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the wall as the question shows it."""
    wall = bundle.exercise.task_as(RouteTask).wall
    return (wall_scene(bundle.case, wall, "front", bundle.pack, routes=(), show=BLANK),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the front, and the rear where something fails there."""
    if result.case is None or result.verdict is None:
        return ()
    found, wall = result.verdict.findings, bundle.exercise.task_as(RouteTask).wall
    behind = any(one.where.face == "rear" for one in result.verdict.failures)
    faces: tuple[Side, ...] = ("front", "rear") if behind else ("front",)
    return tuple(
        wall_scene(result.case, wall, face, bundle.pack, findings=found, show=PARTS) for face in faces
    )
