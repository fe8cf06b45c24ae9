"""The zones a task asks for, each with what of it has to be drawn."""

from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.exercise.kinds.zones.areas import LEAST, areas_of, solid
from zonelib.exercise.kinds.zones.task import ZonesTask
from zonelib.rules.fixing_rules import widest_book
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import mm
from zonelib.rules.zones import Zone, zones
from zonelib.site.geometry import face_outline, openings_area
from zonelib.site.model import Case, Wall

__all__ = ["Asked", "asked_zones", "free_face", "other_strips"]

OWN = 0.2
"""A zone of which less than this share is its own is compared whole."""


@dataclass(frozen=True)
class Asked:
    """One zone that is asked for.

    Attributes
    ----------
    name, form, reason : str
        What a reader calls it, what makes it, and why it lies there.
    area : geometry
        Without the openings [mm].
    core : geometry
        What of it has to be drawn: not its very edge, nor what lies in another zone too [mm].
    run_on : geometry
        Where its strip would go on if no opening ended it [mm].
    """

    name: str
    form: str
    reason: str
    area: BaseGeometry
    core: BaseGeometry
    run_on: BaseGeometry


def asked_zones(case: Case, pack: Pack, task: ZonesTask) -> tuple[Asked, ...]:
    """Return the zones a task asks for."""
    wall = case.wall(task.wall)
    book = widest_book(pack) if task.widest else Rulebook(pack, case.readings)
    pieces = [pair for zone in _zones(wall, task, book) if (pair := _cut(zone, wall))[1].area > LEAST]
    every = [area for _, area in pieces]
    endless = Rulebook(pack, {**book.chosen, "openings_cut_strips": "no"}, widest=book.widest)
    strips = {(one.source, one.form): one.area for one in _zones(wall, task, endless) if _is_strip(one)}
    free = free_face(wall, every, task.slack)
    return tuple(
        Asked(
            _name(zone), zone.form, zone.reason, area,
            core=_core(area, [other for other in every if other is not area], task.slack),
            run_on=solid(strips.get((zone.source, zone.form), shapely.Polygon()).intersection(free)),
        )
        for zone, area in pieces
    )  # fmt: skip


def other_strips(case: Case, pack: Pack, task: ZonesTask) -> dict[str, BaseGeometry]:
    """Return the strips of each accessory that gives nothing to the cable that is asked about [mm]."""
    wall, found = case.wall(task.wall), dict[str, list[BaseGeometry]]()
    for zone in zones(wall, task.face, Rulebook(pack, case.readings), joined=None):
        if _is_strip(zone) and task.joins is not None and zone.source not in task.joins:
            found.setdefault(zone.source, []).append(zone.area)
    return {source: shapely.union_all(areas) for source, areas in found.items()}


def _zones(wall: Wall, task: ZonesTask, book: Rulebook) -> tuple[Zone, ...]:
    return zones(wall, task.face, book, joined=task.joins)


def _cut(zone: Zone, wall: Wall) -> tuple[Zone, BaseGeometry]:
    return zone, areas_of(shapely.difference(zone.area, openings_area(wall)))


def _is_strip(zone: Zone) -> bool:
    return zone.form in ("vertical", "horizontal")


def _name(zone: Zone) -> str:
    """Return what a reader calls a zone, such as ``S1 vertical``."""
    left, _, right, _ = zone.area.bounds
    if zone.form in ("top", "floor"):
        return zone.form
    if zone.form == "corner":
        return f"corner from x {mm(left)} to {mm(right)}"
    side = "" if _is_strip(zone) else f" from x {mm(left)} to {mm(right)}"
    return f"{zone.source} {zone.form}{side}"


def free_face(wall: Wall, every: list[BaseGeometry], slack: float) -> BaseGeometry:
    """Return what of a face lies beyond all zones, farther than the slack from them [mm]."""
    wide = shapely.union_all([area.buffer(slack, join_style="mitre") for area in every])
    return areas_of(face_outline(wall).difference(openings_area(wall)).difference(wide))


def _core(area: BaseGeometry, others: list[BaseGeometry], slack: float) -> BaseGeometry:
    """Return what of a zone must be drawn, with less left out where nothing would remain."""
    inner = area.buffer(-slack, join_style="mitre")
    own = areas_of(inner.difference(shapely.union_all(others)))
    if own.area > OWN * area.area:
        return own
    return area if inner.is_empty else inner
