"""Walking along a leg: where it is outside, and how far at the worst point.

The state is looked at every 10 mm and between all places where the leg crosses a line along which the
state can change; each change of state is then bisected to 0.000001 mm. Between two neighbours of such
places the state cannot change, so no stretch, however short, is stepped over.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from tests.oracle.cells import Array, Cells, cut_up
from tests.oracle.sheet import Ground

__all__ = ["TOLERANCE", "Face", "Leg"]

TOLERANCE = 0.001
"""Values as near as this are equal, and equal passes [mm]."""

STEP = 10.0
END = 1e-6


@dataclass(frozen=True)
class Leg:
    """A straight piece of a route from one point to another [mm]."""

    start: tuple[float, float]
    stop: tuple[float, float]

    @property
    def length(self) -> float:
        """Length [mm]."""
        return float(np.hypot(self.stop[0] - self.start[0], self.stop[1] - self.start[1]))

    def at(self, places: Array) -> Array:
        """Points at distances from the start, shape (n, 2) [mm]."""
        a, b = np.array(self.start), np.array(self.stop)
        points: Array = a + np.asarray(places)[:, None] / self.length * (b - a)
        return points


class Face:
    """A face cut up once, asked about many legs.

    Parameters
    ----------
    sheet : Ground
        The face.
    centre_line : bool
        Whether only the centre line must lie in the zone.
    """

    def __init__(self, sheet: Ground, *, centre_line: bool) -> None:
        self.sheet = sheet
        self.centre_line = centre_line
        self.outside, self.zone = cut_up(sheet)

    def stretches(self, leg: Leg, width: float, shift: float = 0.0) -> list[tuple[float, float]]:
        """Stretches outside, as distances from the leg's start.

        Parameters
        ----------
        leg : Leg
            A leg that has a length.
        width : float
            Width of the cable, or outside size of its conduit [mm].
        shift : float, optional
            Added to the distance at which a point counts as outside, to learn what hangs on the
            tolerance [mm].

        Returns
        -------
        list of (float, float)
            From and to [mm].
        """
        reach = (TOLERANCE if self.centre_line else width / 2 - TOLERANCE) + shift
        cells = (self.zone if self.centre_line else self.outside).near(
            np.array(leg.start), np.array(leg.stop), width + 1
        )
        places = _places(leg, cells, reach, extra=self._face_edges(leg) if self.centre_line else [])

        def state(where: Array) -> npt.NDArray[np.bool_]:
            points = leg.at(where)
            return (
                self._off_centre(points, cells, reach) if self.centre_line else cells.distance(points) < reach
            )

        return _runs(places, state)

    def _off_centre(self, points: Array, cells: Cells, reach: float) -> npt.NDArray[np.bool_]:
        on_face = [self.sheet.on_wall(x, y) and not self.sheet.in_opening(x, y) for x, y in points]
        return np.array(on_face) & (cells.distance(points) > reach)

    def _face_edges(self, leg: Leg) -> list[float]:
        """Places where the leg crosses an edge of an opening or of the wall."""
        loops = [
            [(b.left, b.low), (b.right, b.low), (b.right, b.high), (b.left, b.high)]
            for b in self.sheet.openings
        ]
        loops.append([(self.sheet.length, 0.0), (0.0, 0.0), *self.sheet.top])
        return [
            p
            for loop in loops
            for a, b in pairwise([*loop, loop[0]])
            for p in _meets(leg, np.array([a]), np.array([b]))
        ]

    def farthest(self, leg: Leg, start: float, stop: float) -> float:
        """Largest distance of a part of a leg to the zone, good to 0.001 mm; infinite without a zone [mm]."""
        if not len(self.zone):
            return np.inf
        edges = np.linspace(start, stop, 9)
        best = 0.0
        while len(edges):
            gaps = self.zone.each_distance(leg.at(edges.reshape(-1))).reshape(*edges.shape, -1)
            best = max(best, float(gaps.min(axis=-1).max()))
            edges = _promising(edges, gaps, best + TOLERANCE)
        return best

    def nearest(self, leg: Leg, start: float, stop: float) -> float:
        """Smallest distance of a part of a leg to F, exact up to rounding [mm]."""
        ends = leg.at(np.array([start, stop]))
        cells = self.outside
        crossing = [p for p in _edge_meets(leg, cells) if start <= p <= stop]
        points = leg.at(np.array([start, stop, *crossing]))
        corners = cells.corners().reshape(-1, 2)
        run = ends[1] - ends[0]
        share = np.clip(((corners - ends[0]) @ run) / (run @ run), 0, 1)
        to_corner = np.hypot(*(corners - ends[0] - share[:, None] * run).T)
        return float(min(cells.distance(points).min(), to_corner.min(initial=np.inf)))


def _promising(edges: Array, gaps: Array, best: float) -> Array:
    """Halve the parts in which a larger distance may still lie.

    The distance to one cell is convex along a line, so on a part it is largest at an end;
    the distance to the zone is at most that to any one cell.
    """
    if edges.ndim == 1:
        edges, gaps = np.stack([edges[:-1], edges[1:]], 1), np.stack([gaps[:-1], gaps[1:]], 1)
    parts = edges[gaps.max(axis=1).min(axis=1) > best]
    mid = parts.mean(axis=1)
    return np.concatenate([np.stack([parts[:, 0], mid], 1), np.stack([mid, parts[:, 1]], 1)])


def _places(leg: Leg, cells: Cells, reach: float, extra: list[float]) -> Array:
    """Every place along a leg where its state may change, and at least one every 10 mm."""
    events = np.array(_grown_meets(leg, cells, reach))
    if len(events):
        events = events[np.abs(cells.distance(leg.at(events)) - reach) < END]
    steps = np.linspace(0, leg.length, int(leg.length / STEP) + 2)
    return np.unique(np.concatenate([steps, events, np.array(extra)]))


def _runs(places: Array, state: Callable[[Array], npt.NDArray[np.bool_]]) -> list[tuple[float, float]]:
    mids = (places[:-1] + places[1:]) / 2
    mids = mids[np.diff(places) > 1e-9]
    states = state(mids)
    ends: list[float] = [places[0]] if states[0] else []
    ends += [
        _change(state, a, b, first=bool(s))
        for (a, b), (s, t) in zip(pairwise(mids), pairwise(states), strict=True)
        if s != t
    ]
    ends += [places[-1]] if states[-1] else []
    return [(float(a), float(b)) for a, b in zip(ends[::2], ends[1::2], strict=True) if b - a > TOLERANCE]


def _change(state: Callable[[Array], npt.NDArray[np.bool_]], a: float, b: float, *, first: bool) -> float:
    """Bisect one change of state."""
    while b - a > END:
        tries = np.linspace(a, b, 18)[1:-1]
        ahead = state(tries) == first
        count = len(tries) if ahead.all() else int(np.argmin(ahead))
        a, b = (a, *tries, b)[count], (a, *tries, b)[count + 1]
    return float((a + b) / 2)


def _meets(leg: Leg, start: Array, stop: Array) -> list[float]:
    """Places where the leg meets the infinite lines through pairs of points."""
    a, way = np.array(leg.start), (np.array(leg.stop) - np.array(leg.start)) / leg.length
    along = stop - start
    slant = way[0] * along[:, 1] - way[1] * along[:, 0]
    real = np.abs(slant) > 1e-12
    away = (start - a)[real]
    places = (away[:, 0] * along[real][:, 1] - away[:, 1] * along[real][:, 0]) / slant[real]
    return list(places[(places > 0) & (places < leg.length)])


def _edge_meets(leg: Leg, cells: Cells) -> list[float]:
    corners = cells.corners()
    return _meets(leg, corners.reshape(-1, 2), np.roll(corners, -1, axis=1).reshape(-1, 2))


def _grown_meets(leg: Leg, cells: Cells, reach: float) -> list[float]:
    """Places where the leg meets a side of a cell pushed out, or a circle round one of its corners."""
    corners = cells.corners()
    start, stop = corners.reshape(-1, 2), np.roll(corners, -1, axis=1).reshape(-1, 2)
    side = stop - start
    size = np.maximum(np.hypot(side[:, 0], side[:, 1]), 1e-12)
    out = np.stack([side[:, 1], -side[:, 0]], 1) / size[:, None] * reach
    found = _meets(leg, start + out, stop + out) + _circle_meets(leg, start, reach)
    return [p for p in found if 0 < p < leg.length]


def _circle_meets(leg: Leg, centres: Array, reach: float) -> list[float]:
    a, way = np.array(leg.start), (np.array(leg.stop) - np.array(leg.start)) / leg.length
    foot = (centres - a) @ way
    beside = ((centres - a) ** 2).sum(axis=1) - foot**2
    half = np.sqrt(np.maximum(reach**2 - beside, 0))[beside <= reach**2]
    foot = foot[beside <= reach**2]
    return [*(foot - half), *(foot + half)]
