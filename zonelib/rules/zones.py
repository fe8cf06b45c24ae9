"""The zones of a face: where a cable is expected, piece by piece and as one area."""

import math
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from typing import Literal

import shapely
from shapely import LineString, Point, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from zonelib.rules.pack import ZoneRule
from zonelib.rules.rulebook import Rulebook
from zonelib.site.geometry import face_outline, openings_area, top_line
from zonelib.site.model import Accessory, Opening, Side, Wall
from zonelib.site.room import RoomWall
from zonelib.site.tolerance import above, same

__all__ = ["Zone", "zone_area", "zones"]

Box = tuple[float, float, float, float]
Form = Literal["top", "floor", "corner", "beside", "vertical", "horizontal"]

ARC_STEPS = 256
"""Steps of a quarter circle: at 150 mm the chord then lies within 0.001 mm of the arc."""


@dataclass(frozen=True)
class Zone:
    """One piece of a face's permitted zone.

    Attributes
    ----------
    wall, face : str
        What it lies on.
    source : str
        ``top``, ``floor``, ``corner``, or the id of the accessory, door or window that makes it.
    form : str
        ``top``, ``floor``, ``corner``, ``beside`` (an opening), ``vertical`` or ``horizontal``.
    area : Polygon or MultiPolygon
        The piece, clipped to the face [mm, front view].
    clause, reason : str
        Where it is written, and why it lies there.
    """

    wall: str
    face: str
    source: str
    form: Form
    area: BaseGeometry
    clause: str
    reason: str


def zones(wall: Wall, side: Side, book: Rulebook, *, joined: Collection[str] | None) -> tuple[Zone, ...]:
    """Return the zones of a face.

    Parameters
    ----------
    wall : Wall
        The wall.
    side : {"front", "rear"}
        Which face of it.
    book : Rulebook
        Pack and readings.
    joined : collection of str or None
        Accessories the cable is connected to; None takes every accessory.
    """
    if side == "front" or not isinstance(wall, RoomWall) or not wall.behind:
        return _own_zones(wall, side, book, joined)
    return tuple(zone for zone in _rear_zones(wall, book, joined) if zone.area.area > 0)


def _rear_zones(wall: RoomWall, book: Rulebook, joined: Collection[str] | None) -> Iterator[Zone]:
    """Yield the zones of a rear that is the front of other rooms' walls: theirs there, its own elsewhere."""
    outline = face_outline(wall)
    elsewhere: BaseGeometry = outline
    for other in wall.behind:
        left, right = other.span
        part = shapely.intersection(outline, shapely.box(left, 0.0, right, _ceiling(wall)))
        elsewhere = shapely.difference(elsewhere, part)
        for zone in zones(other.wall, "front", book, joined=joined):
            seen = affine_transform(zone.area, [-1, 0, 0, 1, other.at, 0])
            yield replace(zone, wall=wall.id, face="rear", area=_areas(shapely.intersection(seen, part)))
    for zone in _own_zones(wall.alone, "rear", book, joined):
        yield replace(zone, area=_areas(shapely.intersection(zone.area, elsewhere)))


def _own_zones(wall: Wall, side: Side, book: Rulebook, joined: Collection[str] | None) -> tuple[Zone, ...]:
    every = joined is None or book.reading("borrow_zones") == "yes"
    serving = [
        one
        for one in wall.accessories
        if (every or one.id in (joined or ())) and book.makes_zones(one) and book.serves(one, wall, side)
    ]
    return tuple(
        zone
        for rule in book.pack.zones
        if _applies(rule, wall, side)
        for zone in _MAKERS[rule.source](rule, wall, side, book, serving)
        if zone.area.area > 0
    )


def _applies(rule: ZoneRule, wall: Wall, side: Side) -> bool:
    return rule.only_with is None or wall.face(side).worktop


def zone_area(pieces: Collection[Zone]) -> BaseGeometry:
    """Return the union of zones [mm]."""
    return shapely.union_all([zone.area for zone in pieces])


def _top(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    for band in _top_band(rule, wall, book):
        yield _zone(rule, wall, side, book, source="top", form="top", area=band)


def _top_band(rule: ZoneRule, wall: Wall, book: Rulebook) -> Iterator[BaseGeometry]:
    far = rule.far or 0.0
    if book.reading("sloping_top") == "perpendicular" and wall.top is not None:
        line = top_line(wall)
        band = line.buffer(far, quad_segs=ARC_STEPS)
        yield band.difference(line.buffer(rule.near, quad_segs=ARC_STEPS)) if rule.near else band
    else:
        upper, lower = _lowered(wall, rule.near), _lowered(wall, far)
        yield Polygon([*upper, *reversed(lower)])


def _lowered(wall: Wall, distance: float) -> list[tuple[float, float]]:
    """Return the wall's top lowered; below a sloping one it may pass the floor, to be cut off there later."""
    lowest = 0.0 if wall.top is None else -math.inf
    return [(x, max(y - distance, lowest)) for x, y in wall.profile]


def _floor(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    for band in _floor_band(rule, wall, book):
        yield _zone(rule, wall, side, book, source="floor", form="floor", area=band)


def _floor_band(rule: ZoneRule, wall: Wall, _: Rulebook) -> Iterator[BaseGeometry]:
    top = min(rule.far or 0.0, _ceiling(wall))
    if rule.near < top:
        yield shapely.box(0.0, rule.near, wall.length, top)


_LEVEL: dict[str, Callable[[ZoneRule, Wall, Rulebook], Iterator[BaseGeometry]]] = {
    "top": _top_band,
    "floor": _floor_band,
}
"""What makes a level band, from the ceiling or from the floor."""


def _corner(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    face = wall.face(side)
    external = face.external_corners if book.reading("external_corners") != "no" else ()
    for x in (*face.internal_corners, *external):
        for band in _uprights(rule, wall, x, x):
            yield _zone(rule, wall, side, book, source="corner", form="corner", area=band)


def _door(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    """Yield the bands on a door's lock side; where it is not known, none serves, and any is feared."""
    unknown = _SIDES["both"] if book.widest else ()
    for door in (one for one in wall.openings if one.kind == "door"):
        sides = _SIDES[door.lock_side] if door.lock_side else unknown
        for name, band in _beside(rule, wall, door).items():
            if name in sides:
                yield _zone(rule, wall, side, book, source=door.id, form="beside", area=band)


_SIDES = {"left": ("left",), "right": ("right",), "both": ("left", "right")}


def _window(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    for window in (one for one in wall.openings if one.kind == "window"):
        for band in _beside(rule, wall, window).values():
            yield _zone(rule, wall, side, book, source=window.id, form="beside", area=band)


def _beside(rule: ZoneRule, wall: Wall, opening: Opening) -> dict[str, Polygon]:
    left, _, right, _ = opening.bounds
    bands = _uprights(rule, wall, left, right)
    return {"left" if band.bounds[0] < left else "right": band for band in bands}


def _uprights(rule: ZoneRule, wall: Wall, left: float, right: float) -> Iterator[Polygon]:
    """Yield the full-height bands to the left of one x and to the right of another, cut to the wall."""
    near, far = rule.near, rule.far or 0.0
    spans = [(left - far, left - near), (right + near, right + far)] if near else [(left - far, right + far)]
    for start, end in spans:
        low, high = max(start, 0.0), min(end, wall.length)
        if low < high:
            yield shapely.box(low, 0.0, high, _ceiling(wall))


def _accessory(
    rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, serving: list[Accessory]
) -> Iterator[Zone]:
    for accessory in serving:
        if rule.direction == "stub":
            yield from _stub(rule, wall, side, book, accessory)
        else:
            yield _whole_strip(rule, wall, side, book, accessory)


def _whole_strip(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, accessory: Accessory) -> Zone:
    upright = rule.direction == "vertical"
    strip = _strip(accessory, wall, upright=upright)
    cutting = wall.openings if book.reading("openings_cut_strips") != "no" else ()
    shadows = (_blocked(opening, accessory, wall, upright=upright) for opening in cutting)
    seen: BaseGeometry = strip
    for shadow in shadows:
        seen = seen.difference(shadow) if shadow.intersects(strip) else seen
    form: Form = "vertical" if upright else "horizontal"
    return _zone(rule, wall, side, book, source=accessory.id, form=form, area=seen)


def _stub(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, accessory: Accessory) -> Iterator[Zone]:
    """Yield the upright strip over an accessory to the nearest level band; none where it lies in one.

    Two bands just as near are both the nearest: at 1200 mm in a room of 2400 mm a cable may come either way.
    """
    near = [(_gap(accessory, seen), seen, band) for seen, band in _seen_bands(wall, side, book, accessory)]
    least = min((gap for gap, _, _ in near), default=0.0)
    for gap, seen, band in near:
        if above(gap, 0.0) and same(gap, least):
            area = _way(accessory, band, up=seen.bounds[1] > accessory.y)
            yield _zone(rule, wall, side, book, source=accessory.id, form="vertical", area=area)


def _gap(accessory: Accessory, seen: BaseGeometry) -> float:
    return float(shapely.distance(Point(accessory.x, accessory.y), seen))


def _seen_bands(
    wall: Wall, side: Side, book: Rulebook, accessory: Accessory
) -> Iterator[tuple[BaseGeometry, BaseGeometry]]:
    """Yield each level band, before it what openings leave of it straight over or under the accessory."""
    upright = LineString([(accessory.x, 0.0), (accessory.x, _ceiling(wall))])
    openings = openings_area(wall, grown=book.pack.walls.clear_of_openings)
    for rule in book.pack.zones:
        if rule.source in _LEVEL and _applies(rule, wall, side):
            for band in _LEVEL[rule.source](rule, wall, book):
                seen = band.intersection(upright).difference(openings)
                if not seen.is_empty:
                    yield seen, band


def _way(accessory: Accessory, band: BaseGeometry, *, up: bool) -> BaseGeometry:
    """Return the strip from an accessory to a band, as far as the band on each upright line."""
    left, bottom, right, top = accessory.bounds
    _, low, _, high = band.intersection(shapely.box(left, 0.0, right, band.bounds[3])).bounds
    column = shapely.box(left, bottom, right, high) if up else shapely.box(left, low, right, top)
    centre, parts = Point(accessory.x, accessory.y), shapely.get_parts(column.difference(band))
    return shapely.union_all([part for part in parts if part.intersects(centre)])


def _strip(accessory: Accessory, wall: Wall, *, upright: bool) -> Polygon:
    left, bottom, right, top = accessory.bounds
    if upright:
        return shapely.box(left, 0.0, right, _ceiling(wall))
    return shapely.box(0.0, bottom, wall.length, top)


def _blocked(opening: Opening, accessory: Accessory, wall: Wall, *, upright: bool) -> Polygon:
    """Return what an opening hides from an accessory: itself and all behind it along the strip."""
    left, bottom, right, top = opening.bounds
    if upright:
        low, high = _shadow(bottom, top, accessory.y, _ceiling(wall))
        return shapely.box(left, low, right, high)
    low, high = _shadow(left, right, accessory.x, wall.length)
    return shapely.box(low, bottom, high, top)


def _shadow(near: float, far: float, centre: float, end: float) -> tuple[float, float]:
    """Return the hidden stretch of one axis, seen from the accessory's centre line."""
    if far <= centre:
        return 0.0, far
    return (near, end) if near >= centre else (0.0, end)


def _ceiling(wall: Wall) -> float:
    return max(y for _, y in wall.profile)


def _zone(
    rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, *, source: str, form: Form, area: BaseGeometry
) -> Zone:
    clipped = area if wall.top is None else shapely.intersection(area, face_outline(wall))
    clear = book.pack.walls.clear_of_openings
    if clear and wall.openings:
        clipped = shapely.difference(clipped, openings_area(wall, grown=clear))
    return Zone(wall.id, side, source, form, _areas(clipped), rule.clause, rule.reason.format(source=source))


def _areas(geometry: BaseGeometry) -> BaseGeometry:
    """Return a geometry without the lines and points that remain where edges only touch."""
    if geometry.geom_type in {"Polygon", "MultiPolygon"}:
        return geometry
    parts = shapely.get_parts(geometry)
    return shapely.union_all([part for part in parts if part.geom_type == "Polygon"])


_Maker = Callable[[ZoneRule, Wall, Side, Rulebook, list[Accessory]], Iterator[Zone]]

_MAKERS: dict[str, _Maker] = {
    "top": _top,
    "floor": _floor,
    "corner": _corner,
    "door": _door,
    "window": _window,
    "accessory": _accessory,
}
