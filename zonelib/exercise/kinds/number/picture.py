"""The drawings of a question for a number: the wall, room or joist that it is about."""

from zonelib.draw import Scene, room_scene, wall_scene
from zonelib.draw.joist import joist_scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import GIVEN, as_given
from zonelib.exercise.kinds.number.fitting import cuts_of
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.marking import Result

__all__ = ["blank", "scenes"]

OF_A_JOIST = ("largest-hole", "deepest-notch")


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return what the number is asked of, without zones."""
    return (_scene(bundle, GIVEN),)


def scenes(bundle: Bundle, _: Result) -> tuple[Scene, ...]:
    """Return the same with its zones, where these are what is measured from."""
    asked = bundle.exercise.task_as(NumberTask).ask
    return (_scene(bundle, GIVEN | {"zones"} if asked == "outside-zone" else GIVEN),)


def _scene(bundle: Bundle, show: frozenset[str]) -> Scene:
    task, case, pack = bundle.exercise.task_as(NumberTask), bundle.case, bundle.pack
    if task.ask in OF_A_JOIST:
        joist = next(one for one in case.joists if task.of in cuts_of(one))
        return joist_scene(joist, pack)
    route = next(one for one in case.routes if one.id == task.of)
    if route.room:
        return as_given(room_scene(case, route.room, pack, routes=[route.id], show=show))
    return as_given(wall_scene(case, route.wall or "", "front", pack, routes=[route.id], show=show))
