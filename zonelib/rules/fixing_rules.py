"""Fixings: one who drills takes the widest view of where a cable may be."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

import shapely
from shapely import Point
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.rules.finding import Finding, Place
from zonelib.rules.pack import FixingRule, Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure, finding
from zonelib.rules.words import beside, mm
from zonelib.rules.zones import Zone, zone_area, zones
from zonelib.site.geometry import face_outline, opening_box, openings_area, solid_area
from zonelib.site.model import Fixing, Side, Wall, other_side
from zonelib.site.room import RoomWall
from zonelib.site.tolerance import above, below

__all__ = ["avoid_pieces", "avoid_region", "hanging_region", "judge_fixing", "widest_book"]

ARC_STEPS = 64
"""Steps of a quarter circle where a region is drawn wider than its zones."""


def widest_book(pack: Pack) -> Rulebook:
    """Return the rules as one who drills must take them: every reading at its widest.

    A reading names its narrow value; the widest is the other one. An RCD says nothing about where
    a cable lies, so the reading about it is left as it stands.
    """
    wide = {
        name: next(value for value in reading.values if value != reading.narrow)
        for name, reading in pack.readings.items()
        if name != "rcd_outside_zone"
    }
    return Rulebook(pack, wide, widest=True)


def avoid_region(wall: Wall, side: Side, pack: Pack, *, diameter: float = 0.0) -> BaseGeometry:
    """Return where on a face no fixing's centre may lie, openings among them [mm].

    Parameters
    ----------
    wall : Wall
        The wall.
    side : {"front", "rear"}
        The face that is drilled.
    pack : Pack
        The country's rules.
    diameter : float
        Of the drill [mm].
    """
    region = zone_area(avoid_pieces(wall, side, pack, diameter=diameter))
    return region.union(openings_area(wall)).intersection(face_outline(wall))


def avoid_pieces(wall: Wall, side: Side, pack: Pack, *, diameter: float = 0.0) -> tuple[Zone, ...]:
    """Return every zone one who drills must expect, each grown by half the drill and half a cable."""
    reach, outline = _reach(pack, diameter), face_outline(wall)
    return tuple(
        replace(zone, area=zone.area.buffer(reach, quad_segs=ARC_STEPS).intersection(outline))
        for zone in _wide_zones(wall, side, pack)
    )


def hanging_region(
    wall: Wall, side: Side, pack: Pack, offsets: Iterable[tuple[float, float]], *, diameter: float
) -> BaseGeometry:
    """Return where the first fixing of a rigid group may lie, so that none lies in the region to avoid.

    Parameters
    ----------
    offsets : iterable of tuple of float
        Of each fixing from the first one [mm].
    diameter : float
        Of the drill [mm].

    Returns
    -------
    geometry
        Empty where the group cannot hang on this face at all.
    """
    outline = face_outline(wall)
    free = outline.difference(avoid_region(wall, side, pack, diameter=diameter))
    return shapely.intersection_all([translate(free, -x, -y) for x, y in ((0.0, 0.0), *offsets)])


def _wide_zones(wall: Wall, side: Side, pack: Pack) -> tuple[Zone, ...]:
    """Return every zone one who drills must expect, strips of the room behind a thin wall as well."""
    book = widest_book(pack)
    here = zones(wall, side, book, joined=None)
    thin = pack.walls.thin
    if not isinstance(wall, RoomWall) or thin is None or above(wall.thickness, thin.thickness):
        return here
    behind = zones(wall, other_side(side), book, joined=None)
    return (*here, *(zone for zone in behind if zone.form in {"vertical", "horizontal"}))


def _reach(pack: Pack, diameter: float) -> float:
    """Half the drill and half a cable: how far from a zone its cable can be met [mm]."""
    return diameter / 2 + (pack.fixings.cable / 2 if pack.fixings else 0.0)


def judge_fixing(fixing: Fixing, wall: Wall, book: Rulebook) -> Iterator[Finding]:
    """Judge one fixing; a pack without a rule for fixings yields nothing."""
    rule = book.pack.fixings
    if rule is None:
        return
    point, limit = Point(fixing.x, fixing.y), _reach(book.pack, fixing.diameter)
    away = float(shapely.distance(point, solid_area(wall)))
    if above(away, 0.0):
        yield _no_wall(fixing, wall, book, away)
        return
    near = _nearest(point, _wide_zones(wall, fixing.face, book.pack))
    if near is not None and below(near[0], limit):
        yield _avoid(fixing, book, rule, near, limit)
    else:
        yield _clear(fixing, book, rule, near[0] if near else None, limit)


def _nearest(point: Point, pieces: tuple[Zone, ...]) -> tuple[float, Zone] | None:
    away = [(float(shapely.distance(point, zone.area)), zone) for zone in pieces]
    return min(away, key=lambda pair: pair[0], default=None)


def _no_wall(fixing: Fixing, wall: Wall, book: Rulebook, away: float) -> Finding:
    within = [one for one in wall.openings if shapely.covers(opening_box(one), Point(fixing.x, fixing.y))]
    return finding(
        book, "fixing", "opening" if within else "off", "fail", subject=fixing.id,
        where=Place(fixing.wall, fixing.face), measure=Measure(away, 0.0), wall=fixing.wall, face=fixing.face,
        measured=beside(away, 0.0), opening=f"{within[0].kind} {within[0].id}" if within else "",
    )  # fmt: skip


def _avoid(
    fixing: Fixing, book: Rulebook, rule: FixingRule, near: tuple[float, Zone], limit: float
) -> Finding:
    distance, zone = near
    return finding(
        book, "fixing", "avoid", "fail", subject=fixing.id, where=Place(fixing.wall, fixing.face),
        clause=rule.clause, measure=Measure(distance, limit, ">="), near=zone.reason, wall=fixing.wall,
        face=fixing.face, measured=beside(distance, limit), limit=mm(limit),
    )  # fmt: skip


def _clear(fixing: Fixing, book: Rulebook, rule: FixingRule, distance: float | None, limit: float) -> Finding:
    deep = not below(fixing.penetration, rule.usual_depth)
    return finding(
        book, "fixing", "deep" if deep else "clear", "caution" if deep else "pass", subject=fixing.id,
        where=Place(fixing.wall, fixing.face), clause=rule.clause, measure=Measure(distance, limit, ">="),
        wall=fixing.wall, face=fixing.face, penetration=beside(fixing.penetration, rule.usual_depth),
        usual=mm(rule.usual_depth),
    )  # fmt: skip
