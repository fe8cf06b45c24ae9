"""Stretches of a route outside the zones, and how far outside they lie."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.rules.legs import Leg
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Stretch", "farthest", "line_of", "part_of", "parts_within", "stretches"]

Floats = npt.NDArray[np.float64]

ARC_STEPS = 48
"""Steps of a quarter circle round the barred area; a cable's half width is small."""

FINEST = 0.002
"""Where the search for the worst point stops [mm]."""

CUTS = 8
"""Into how many parts an interval is cut at once: fewer rounds, each a little dearer."""


@dataclass(frozen=True)
class Stretch:
    """An unbroken piece of a route.

    Attributes
    ----------
    legs : tuple of Leg
        The legs it runs over.
    from_mm, to_mm : float
        Its ends along the route's centre line [mm].
    """

    legs: tuple[Leg, ...]
    from_mm: float
    to_mm: float

    def lines(self) -> Iterator[tuple[Leg, LineString]]:
        """Yield each leg with its part of the stretch."""
        for leg in self.legs:
            yield leg, part_of(leg, max(self.from_mm, leg.from_mm), min(self.to_mm, leg.to_mm))


def line_of(leg: Leg) -> LineString:
    """Return a leg's centre line."""
    return LineString([leg.start, leg.end])


def part_of(leg: Leg, from_mm: float, to_mm: float) -> LineString:
    """Return the part of a leg between two marks along the route [mm]."""
    length = leg.to_mm - leg.from_mm
    shares = [(mark - leg.from_mm) / length for mark in (from_mm, to_mm)]
    (x0, y0), (x1, y1) = leg.start, leg.end
    return LineString([(x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in shares])


def parts_within(leg: Leg, area: BaseGeometry) -> Iterator[tuple[float, float]]:
    """Yield the parts of a leg that lie in an area, as marks along the route [mm]."""
    line = line_of(leg)
    origin = np.array(leg.start)
    along = (np.array(leg.end) - origin) / line.length
    for part in _parts(line.intersection(area)):
        marks = (shapely.get_coordinates(part) - origin) @ along
        if marks.max() - marks.min() > TOLERANCE:
            yield leg.from_mm + float(marks.min()), leg.from_mm + float(marks.max())


def stretches(legs: Iterable[Leg], barred: BaseGeometry, *, whole_width: bool) -> list[Stretch]:
    """Return the unbroken stretches of a route that touch a barred area.

    Parameters
    ----------
    legs : iterable of Leg
        The legs to look at, in order; a gap between them ends a stretch.
    barred : geometry
        The face without openings and zone [mm].
    whole_width : bool
        Whether the cable's whole width counts, or its centre line alone.
    """
    found: list[Stretch] = []
    for leg in legs:
        for start, end in sorted(_touching(leg, barred, leg.width / 2 - TOLERANCE if whole_width else 0.0)):
            if found and start - found[-1].to_mm <= TOLERANCE:
                before = found[-1]
                together = before.legs if before.legs[-1] is leg else (*before.legs, leg)
                found[-1] = Stretch(together, before.from_mm, end)
            else:
                found.append(Stretch((leg,), start, end))
    return found


def _touching(leg: Leg, barred: BaseGeometry, reach: float) -> Iterable[tuple[float, float]]:
    """Return the parts of a leg within reach of an area; most legs keep clear, which is quickly told."""
    if shapely.distance(line_of(leg), barred) > reach:
        return ()
    return parts_within(leg, barred.buffer(reach, quad_segs=ARC_STEPS) if reach > 0 else barred)


def farthest(line: LineString, area: BaseGeometry) -> float:
    """Return the largest distance from a straight line's points to an area [mm], 0 where all lie in it."""
    outside = _parts(line.difference(area))
    edges = _edges(area)
    return max((_farthest(shapely.get_coordinates(part), edges) for part in outside), default=0.0)


def _parts(geometry: BaseGeometry) -> Iterable[BaseGeometry]:
    return () if geometry.is_empty else shapely.get_parts(geometry)


def _edges(area: BaseGeometry) -> Floats:
    """Return the edges of an area, one row of x0, y0, x1, y1 each [mm]."""
    points, ring = shapely.get_coordinates(shapely.get_rings(shapely.get_parts(area)), return_index=True)
    together = ring[1:] == ring[:-1]
    edges: Floats = np.hstack([points[:-1], points[1:]])[together]
    return edges


def _farthest(ends: Floats, edges: Floats) -> float:
    """Search a piece wholly outside, cutting it finer only where the worst point may still hide.

    The distance to one edge is convex along the piece: between two points that share their nearest edge
    it is nowhere larger than at one of them. And between any two points it rises by no more than half
    the way between them. Intervals that neither bound closes are cut into eight.
    """
    start, along = ends[0], ends[-1] - ends[0]
    length = float(np.hypot(*along))
    lows, step, worst = np.array([0.0]), 1.0, 0.0
    while len(lows) and step * length > FINEST:
        step /= CUTS
        marks = lows[:, None] + step * np.arange(CUTS + 1)
        edge, distance = _nearest(start + marks[..., None] * along, edges)
        worst = max(worst, float(distance.max()))
        highest = (distance[:, :-1] + distance[:, 1:] + step * length) / 2
        unsettled = (edge[:, :-1] != edge[:, 1:]) & (highest > worst + FINEST)
        lows = marks[:, :-1][unsettled]
    return worst


def _nearest(points: Floats, edges: Floats) -> tuple[npt.NDArray[np.intp], Floats]:
    """Return for each point its nearest edge and the distance to it [mm]."""
    origin, along = edges[:, :2], edges[:, 2:] - edges[:, :2]
    offset = points[..., None, :] - origin
    share = (offset * along).sum(axis=-1) / (along * along).sum(axis=1)
    away = offset - np.minimum(np.maximum(share, 0.0), 1.0)[..., None] * along
    squares = (away * away).sum(axis=-1)
    return squares.argmin(axis=-1), np.sqrt(squares.min(axis=-1))
