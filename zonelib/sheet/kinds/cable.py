"""What the pads share that show one cable: its failing stretches, and drawings that tell nothing."""

from collections.abc import Iterator

from zonelib.draw import EVERY_PART
from zonelib.draw.stretches import failures, line_of
from zonelib.draw.tracks import legs_on
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.rules.legs import Leg
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
        The wall it runs on, or the row of a room's walls. There a stretch comes in pieces of one number,
        where the row ends or the cable leaves the wall.
    """
    if result.case is None or result.verdict is None:
        return []
    route = result.case.routes[0]
    legs = legs_on(route, wall, Rulebook(bundle.pack, result.case.readings))
    return [
        {
            "n": one.n,
            "face": one.finding.where.face or route.depth_from,
            "points": [list(point) for point in line_of(piece, one.ends).coords],
            "text": one.finding.text if first else "",
        }
        for one in failures(route, result.verdict.findings)
        if one.ends
        for first, piece in _pieces(
            [leg for leg in legs if leg.from_mm < one.ends[1] and one.ends[0] < leg.to_mm]
        )
    ]


def _pieces(legs: list[Leg]) -> Iterator[tuple[bool, list[Leg]]]:
    """Yield legs that touch each other as one piece, and whether it is the first."""
    starts = [at for at, leg in enumerate(legs) if at == 0 or leg.start != legs[at - 1].end]
    for at, end in zip(starts, [*starts[1:], len(legs)], strict=True):
        yield at == 0, legs[at:end]


def coverings(bundle: Bundle, offered: tuple[str, ...]) -> list[Data]:
    """Return the coverings on offer, with their words."""
    return [{"id": name, "words": bundle.pack.protections[name].words} for name in offered]
