"""The drawings of hung things: the face as it looks, and the face with zones and fixings."""

import shapely

from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer
from zonelib.exercise.kinds.fixings.task import FixingsTask, Item
from zonelib.exercise.marking import Result
from zonelib.site.fields import Point

__all__ = ["blank", "scenes"]

PARTS = EVERY_PART - {"safety", "routes"}
BLANK = PARTS - {"zones", "other-zones", "hidden"}
KEY = {"item": "what hangs here"}


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the face as the question shows it: only what can be seen."""
    task = bundle.exercise.task_as(FixingsTask)
    return (wall_scene(bundle.case, task.wall, task.face, bundle.pack, routes=(), show=BLANK),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the face with zones, things and fixings; what was out of sight is shown now."""
    if result.case is None or not isinstance(result.answer, FixingsAnswer):
        return ()
    task = bundle.exercise.task_as(FixingsTask)
    scene = wall_scene(result.case, task.wall, task.face, bundle.pack, routes=(), show=PARTS)
    marks = [*_items(task, result.answer), *_numbers(result, 1.6 * scene.em)]
    return (overlaid(scene, marks, key=KEY),)


def _items(task: FixingsTask, answer: FixingsAnswer) -> list[Mark]:
    return [_item(item, answer.places[item.id]) for item in task.items if item.id in answer.places]


def _item(item: Item, place: Point) -> Mark:
    x, y = place
    words = f"{item.id} {item.words}"
    alt = f"{words}, lower left corner at {x:g}, {y:g}."
    return Mark(css="item", shape=shapely.box(x, y, x + item.width, y + item.height), alt=alt, label=words)


def _round(place: Point, far: float) -> shapely.MultiPoint:
    """Return the places round a fixing where its number may stand."""
    ways = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1))
    return shapely.MultiPoint([(place[0] + far * across, place[1] + far * up) for across, up in ways])


def _numbers(result: Result, beside: float) -> list[Mark]:
    """Return a number beside each fixing that is in danger."""
    places = {one.id: (one.x, one.y) for one in result.case.fixings} if result.case else {}
    failed = result.verdict.failures if result.verdict else ()
    return [
        Mark(
            css="fixing", shape=_round(places[one.subject], beside),
            alt=f"Number {n}: {one.subject}, {one.reason}.", n=n,
        )
        for n, one in enumerate(failed, start=1)
    ]  # fmt: skip
