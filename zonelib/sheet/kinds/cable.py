"""What the pads share that show one cable: its failing stretches, and drawings that tell nothing."""

from collections.abc import Collection

from zonelib.draw import EVERY_PART, Scene, room_scene, wall_scene
from zonelib.draw.stretches import failures, line_of
from zonelib.draw.tracks import legs_on
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.marking import Result
from zonelib.rules.rulebook import Rulebook
from zonelib.sheet.kinds.base import Data, wall_part
from zonelib.site.model import Case, Side, Wall
from zonelib.site.ring import ring_of
from zonelib.site.row import Row, row_of

__all__ = ["DRAWN", "FACES", "PARTS", "cable_scene", "coverings", "drawn_on", "failing", "wall_or_row"]

PARTS = EVERY_PART - {"zones", "other-zones", "routes", "findings", "points", "safety", "legend", "notes"}
DRAWN = EVERY_PART - {"zones", "other-zones", "findings", "safety", "legend"}
FACES: tuple[Side, Side] = ("front", "rear")


def drawn_on(bundle: Bundle, task: CableTask) -> Wall:
    """Return the wall a cable runs on, or the walls of its room in a row."""
    return row_of(ring_of(bundle.case, task.room)) if task.room else bundle.case.wall(task.wall)


def wall_or_row(wall: Wall) -> Data:
    """Return a wall to draw on; the walls of a row tell the pad that it goes round."""
    part = wall_part(wall)
    if isinstance(wall, Row):
        part["walls"] = [{"id": one.id, "start": at, "length": one.length} for one, at in wall.placed]
    return part


def cable_scene(
    bundle: Bundle, task: CableTask, case: Case, *, face: Side, show: Collection[str], bare: bool = False
) -> Scene:
    """Return the picture of a cable's wall or room; `bare` leaves out every cable."""
    routes = () if bare else None
    if task.room:
        return room_scene(case, task.room, bundle.pack, routes=routes, show=show)
    return wall_scene(case, task.wall, face, bundle.pack, routes=routes, show=show)


def failing(bundle: Bundle, result: Result, wall: Wall) -> list[Data]:
    """Return the failing stretches of the answered cable, as the pad draws them.

    Parameters
    ----------
    wall : Wall
        The wall it runs on, or the row of a room's walls. There no stretch goes on past its wall's corner.
    """
    if result.case is None or result.verdict is None:
        return []
    route = result.case.routes[0]
    legs = legs_on(route, wall, Rulebook(bundle.pack, result.case.readings))
    return [
        {
            "n": one.n,
            "face": one.finding.where.face or route.depth_from,
            "points": [list(point) for point in line_of(legs, one.ends).coords],
            "text": one.finding.text,
        }
        for one in failures(route, result.verdict.findings)
        if one.ends
    ]


def coverings(bundle: Bundle, offered: tuple[str, ...]) -> list[Data]:
    """Return the coverings on offer, with their words."""
    return [{"id": name, "words": bundle.pack.protections[name].words} for name in offered]
