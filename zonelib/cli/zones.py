"""``zonelib zones``: the permitted zones of each face."""

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
import shapely

from zonelib.cli.course import course_lines, course_option
from zonelib.cli.report import show_drilling, show_faults, show_zones
from zonelib.rules.course import course_for
from zonelib.rules.fixing_rules import avoid_pieces
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import listed
from zonelib.rules.zones import Zone, zones
from zonelib.site.faults import FileFault
from zonelib.site.model import Case, Side, Wall
from zonelib.site.room import RoomWall, known_behind

__all__ = ["command", "feature_collection"]

SIDES: tuple[Side, Side] = ("front", "rear")


WIDEST_DRILL = 1000.0
"""Wider than any core drill [mm]."""


def _drill(diameter: float | None) -> float | None:
    if diameter is not None and not 0 < diameter <= WIDEST_DRILL:
        raise click.BadParameter(f"found {diameter:g}; allowed: above 0, at most {WIDEST_DRILL:g} mm.")
    return diameter


@click.command("zones")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="GeoJSON, in mm of each wall's front view.")
@click.option(
    "--drill",
    type=float,
    callback=lambda *given: _drill(given[-1]),
    metavar="MM",
    help="Instead, where to keep a drill of this diameter away: the widest view of where a cable may be.",
)
@course_option
def command(file: Path, *, as_json: bool, drill: float | None, course_file: Path | None) -> None:
    """Show where each face of the walls in FILE may carry a cable, and why.

    For each wall and face: the zones for the accessories each route joins, and the zones of all accessories.
    """
    try:
        course = course_for(file.parent, course_file)
        case, pack = case_and_pack(file, course=course)
    except FileFault as fault:
        if as_json:
            click.echo(json.dumps({"file": str(file), "error": "; ".join(map(str, fault.faults))}))
        else:
            show_faults(fault)
        sys.exit(2)
    if drill and pack.fixings is None:
        raise click.UsageError(f"--drill: the pack {pack.id} has no rule for fixings. Leave the option out.")
    if as_json:
        click.echo(json.dumps({"file": str(file), **feature_collection(case, pack, drill=drill)}))
    elif drill:
        lines = [*unknown_rears(case), *course_lines(course)]
        show_drilling(file, _to_avoid(case, pack, drill), pack, drill, course=lines)
    else:
        show_zones(file, _each(case, pack), pack, course=course_lines(course))


def feature_collection(case: Case, pack: Pack, *, drill: float | None = None) -> dict[str, Any]:
    """Return the zones of a case as a GeoJSON feature collection; ``joined`` is a route's id or ``all``.

    With the diameter of a drill [mm]: the pieces of the region to avoid, and what to do before drilling.
    """
    pieces = _to_avoid(case, pack, drill) if drill else _each(case, pack)
    return {
        "type": "FeatureCollection",
        "pack": pack.id,
        "edition": pack.stated_edition,
        "features": [_feature(zone, joined) for joined, zone in pieces],
        **({"drill": drill, "advice": [*unknown_rears(case), *pack.safety.drill]} if drill else {}),
    }


def _to_avoid(case: Case, pack: Pack, drill: float) -> Iterator[tuple[str, Zone]]:
    for wall in case.walls:
        for side in SIDES:
            if side == "front" or known_behind(wall):
                pieces = avoid_pieces(wall, side, pack, diameter=drill)
                yield from (("all", zone) for zone in pieces)


def _each(case: Case, pack: Pack) -> Iterator[tuple[str, Zone]]:
    book = Rulebook(pack, case.readings)
    for wall in case.walls:
        for side in SIDES:
            for name, joined in _joined_sets(case, wall):
                yield from ((name, zone) for zone in zones(wall, side, book, joined=joined))


def unknown_rears(case: Case) -> list[str]:
    """Return a sentence on the rears of which nothing is known, or none."""
    names = [wall.id for wall in case.walls if not known_behind(wall)]
    if not names:
        return []
    return [f"Nothing is known of what is behind {listed(names)}: look there before you drill."]


def _joined_sets(case: Case, wall: Wall) -> Iterator[tuple[str, tuple[str, ...] | None]]:
    room = wall.room if isinstance(wall, RoomWall) else None
    for route in case.routes:
        if route.wall == wall.id or (room is not None and route.room == room):
            yield route.id, route.joins
    yield "all", None


def _feature(zone: Zone, joined: str) -> dict[str, Any]:
    properties = {
        "wall": zone.wall, "face": zone.face, "joined": joined, "source": zone.source,
        "clause": zone.clause, "reason": zone.reason,
    }  # fmt: skip
    return {
        "type": "Feature",
        "geometry": shapely.geometry.mapping(shapely.orient_polygons(zone.area)),
        "properties": properties,
    }
