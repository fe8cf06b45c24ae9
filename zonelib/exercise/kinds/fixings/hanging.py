"""Whether a thing can hang at a place, and where else it could."""

from collections.abc import Iterator, Mapping

import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from zonelib.exercise.kinds.fixings.task import FixingsTask, Item
from zonelib.rules.fixing_rules import hanging_region
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.site.fields import Point
from zonelib.site.geometry import face_outline
from zonelib.site.model import Wall
from zonelib.site.tolerance import TOLERANCE, above, below

__all__ = ["free_places", "obstacle", "safe_place", "seen_wall"]

MARGIN = 1.0
"""How far inside the free places a suggestion keeps [mm]."""


def seen_wall(wall: Wall) -> Wall:
    """Return a wall with only the accessories that can be seen: the clues."""
    return wall.model_copy(update={"accessories": tuple(one for one in wall.accessories if one.visible)})


def obstacle(item: Item, places: Mapping[str, Point], task: FixingsTask, wall: Wall) -> str:
    """Return why an item does not hang where it was put, or "" where it does."""
    if item.id not in places:
        return f"{item.id} is not placed"
    box = _box(item, places[item.id])
    if not face_outline(wall).buffer(TOLERANCE).covers(box):
        return f"{item.id} does not lie on the wall"
    low, high = item.between or (places[item.id][1], places[item.id][1])
    if below(places[item.id][1], low) or above(places[item.id][1], high):
        return f"the lower edge of {item.id} is to be {mm(low)} to {mm(high)} mm high"
    there = next((name for name, other in _there(item, places, task, wall) if _meet(box, other)), "")
    return f"{item.id} lies over {there}" if there else ""


def _box(item: Item, place: Point) -> shapely.Polygon:
    x, y = place
    return shapely.box(x, y, x + item.width, y + item.height)


def _meet(one: BaseGeometry, other: BaseGeometry) -> bool:
    return bool(one.buffer(-TOLERANCE).intersects(other))


def _there(
    item: Item, places: Mapping[str, Point], task: FixingsTask, wall: Wall
) -> Iterator[tuple[str, BaseGeometry]]:
    """Yield what an item may not lie over, with its name."""
    for opening in wall.openings:
        yield opening.id, shapely.box(*opening.bounds)
    for accessory in wall.accessories:
        if accessory.visible and accessory.face == task.face:
            yield accessory.id, shapely.box(*accessory.bounds)
    for other in task.items:
        if other.id != item.id and other.id in places:
            yield other.id, _box(other, places[other.id])


def free_places(
    item: Item, places: Mapping[str, Point], task: FixingsTask, wall: Wall, pack: Pack
) -> BaseGeometry:
    """Return where an item's lower left corner may lie: it hangs there, and no fixing is in danger [mm]."""
    first, outline = item.fixings[0], face_outline(wall)
    offsets = [(x - first[0], y - first[1]) for x, y in item.fixings[1:]]
    region = hanging_region(seen_wall(wall), task.face, pack, offsets, diameter=task.diameter)
    low, high = item.between or (0.0, max(y for _, y in wall.profile))
    corners = [(x, y) for x in (0.0, item.width) for y in (0.0, item.height)]
    inside = shapely.intersection_all([translate(outline, -x, -y) for x, y in corners])
    free = translate(region, -first[0], -first[1]).intersection(inside)
    free = free.intersection(shapely.box(-item.width, low, wall.length, high))
    taken = [_around(item, other) for _, other in _there(item, places, task, wall)]
    return free.difference(shapely.union_all(taken))


def _around(item: Item, other: BaseGeometry) -> shapely.Polygon:
    left, bottom, right, top = other.bounds
    return shapely.box(left - item.width, bottom - item.height, right, top)


def safe_place(free: BaseGeometry, place: Point) -> Point | None:
    """Return the nearest place of those that are free, in whole millimetres where that is free too."""
    inner = free.buffer(-MARGIN)
    if inner.is_empty:
        return None
    found, _ = nearest_points(inner, shapely.Point(place))
    whole = shapely.Point(round(found.x), round(found.y))
    at = whole if free.covers(whole) else found
    return at.x, at.y
