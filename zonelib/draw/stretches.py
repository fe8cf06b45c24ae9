"""Which stretches of a route a picture shows as failing, and under which number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString

from zonelib.rules.engine import ROUTE_RULES
from zonelib.rules.finding import Finding
from zonelib.rules.legs import Leg
from zonelib.rules.stretches import part_of
from zonelib.site.model import Route

__all__ = ["Failure", "clipped", "failures", "line_of", "remaining"]

_SHORTEST = 0.01
"""A shorter piece would not show [mm]."""

Ends = tuple[float, float]

WHOLE = frozenset({"wall-rcd", "metal-wall", "route-joins"})
"""Rules about a cable as a whole: no stretch of it is to be moved."""


@dataclass(frozen=True)
class Failure:
    """A failed finding as the picture shows it.

    Attributes
    ----------
    n : int
        Its place among the failed findings, counted from 1.
    finding : Finding
        The finding.
    ends : tuple of float or None
        Where it lies along the route [mm]; None where it speaks of the whole route.
    """

    n: int
    finding: Finding
    ends: Ends | None


def failures(route: Route, findings: Sequence[Finding]) -> tuple[Failure, ...]:
    """Return the failures of one route; numbers count every failed finding given."""
    failed = [finding for finding in findings if finding.status == "fail"]
    return tuple(
        Failure(n, finding, _ends(finding))
        for n, finding in enumerate(failed, start=1)
        if finding.subject == route.id and finding.rule in ROUTE_RULES
    )


def _ends(finding: Finding) -> Ends | None:
    where = finding.where
    if finding.rule in WHOLE or where.from_mm is None or where.to_mm is None:
        return None
    return where.from_mm, where.to_mm


def line_of(legs: Sequence[Leg], ends: Ends) -> LineString:
    """Return the piece of a route's centre line between two marks, which must lie on these legs [mm]."""
    low, high = ends
    parts = [
        part_of(leg, max(low, leg.from_mm), min(high, leg.to_mm))
        for leg in legs
        if leg.from_mm < high and low < leg.to_mm
    ]
    points = [point for part in parts for point in part.coords]
    kept = [point for index, point in enumerate(points) if index == 0 or point != points[index - 1]]
    return LineString(kept if len(kept) > 1 else [*kept, *kept])


def remaining(total: float, taken: Sequence[Ends]) -> Iterator[Ends]:
    """Yield the pieces of a length that are left when stretches are taken out [mm]."""
    start = 0.0
    for low, high in sorted(taken):
        if min(low, total) > start + _SHORTEST:
            yield start, min(low, total)
        start = max(start, high)
    if start < total - _SHORTEST:
        yield start, total


def clipped(line: LineString, frame: tuple[float, float, float, float]) -> Iterator[LineString]:
    """Yield what of a line lies in a frame [mm]."""
    for piece in shapely.get_parts(shapely.intersection(line, shapely.box(*frame))):
        if isinstance(piece, LineString) and not piece.is_empty:
            yield piece
