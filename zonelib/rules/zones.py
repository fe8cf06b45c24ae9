"""The zones of a face: where a cable is expected, piece by piece and as one area."""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from typing import Literal

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from zonelib.rules.pack import ZoneRule
from zonelib.rules.rulebook import Rulebook
from zonelib.site.geometry import face_outline, top_line
from zonelib.site.model import Accessory, Opening, Side, Wall

__all__ = ["Zone", "zone_area", "zones"]

Box = tuple[float, float, float, float]
Form = Literal["top", "corner", "vertical", "horizontal"]

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
        ``top``, ``corner``, or the id of the accessory that makes it.
    form : str
        ``top``, ``corner``, ``vertical`` or ``horizontal``.
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
    every = joined is None or book.reading("borrow_zones") == "yes"
    serving = [
        one
        for one in wall.accessories
        if (every or one.id in (joined or ())) and book.makes_zones(one) and book.serves(one, wall, side)
    ]
    return tuple(
        zone
        for rule in book.pack.zones
        for zone in _MAKERS[rule.source](rule, wall, side, book, serving)
        if not zone.area.is_empty
    )


def zone_area(pieces: Collection[Zone]) -> BaseGeometry:
    """Return the union of zones [mm]."""
    return shapely.union_all([zone.area for zone in pieces])


def _top(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    far = rule.far or 0.0
    if book.reading("sloping_top") == "perpendicular" and wall.top is not None:
        band = top_line(wall).buffer(far, quad_segs=ARC_STEPS)
    else:
        lower = [(x, max(y - far, 0.0)) for x, y in reversed(wall.profile)]
        band = Polygon([*wall.profile, *lower])
    yield _zone(rule, wall, side, source="top", form="top", area=band)


def _corner(rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, _: list[Accessory]) -> Iterator[Zone]:
    face = wall.face(side)
    external = face.external_corners if book.reading("external_corners") != "no" else ()
    far = rule.far or 0.0
    for x in (*face.internal_corners, *external):
        band = shapely.box(max(x - far, 0.0), 0.0, min(x + far, wall.length), _ceiling(wall))
        yield _zone(rule, wall, side, source="corner", form="corner", area=band)


def _strips(
    rule: ZoneRule, wall: Wall, side: Side, book: Rulebook, serving: list[Accessory]
) -> Iterator[Zone]:
    upright = rule.direction == "vertical"
    cutting = wall.openings if book.reading("openings_cut_strips") != "no" else ()
    for accessory in serving:
        strip = _strip(accessory, wall, upright=upright)
        blocked = [_blocked(opening, accessory, wall, upright=upright) for opening in cutting]
        blocked = [shadow for shadow in blocked if shadow.intersects(strip)]
        seen = strip.difference(shapely.union_all(blocked)) if blocked else strip
        form: Form = "vertical" if upright else "horizontal"
        yield _zone(rule, wall, side, source=accessory.id, form=form, area=seen)


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


def _zone(rule: ZoneRule, wall: Wall, side: Side, *, source: str, form: Form, area: BaseGeometry) -> Zone:
    clipped = area if wall.top is None else shapely.intersection(area, face_outline(wall))
    return Zone(wall.id, side, source, form, clipped, rule.clause, rule.reason.format(source=source))


_Maker = Callable[[ZoneRule, Wall, Side, Rulebook, list[Accessory]], Iterator[Zone]]

_MAKERS: dict[str, _Maker] = {"top": _top, "corner": _corner, "accessory": _strips}
