"""What the pads share that show one cable: its failing stretches, and drawings that tell nothing."""

from zonelib.draw import EVERY_PART
from zonelib.draw.stretches import failures, line_of
from zonelib.draw.tracks import legs_on
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.rules.rulebook import Rulebook
from zonelib.sheet.kinds.base import Data
from zonelib.site.model import Side, Wall

__all__ = ["DRAWN", "FACES", "PARTS", "coverings", "failing"]

PARTS = EVERY_PART - {"zones", "other-zones", "routes", "findings", "points", "safety", "legend", "notes"}
DRAWN = EVERY_PART - {"zones", "other-zones", "findings", "safety", "legend"}
FACES: tuple[Side, Side] = ("front", "rear")


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
