"""A face cut into upright slabs, each cell of a slab tested at its centre by :mod:`tests.oracle.sheet`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from tests.oracle.sheet import Ground, Line, top_at

__all__ = ["Array", "Cells", "cut_up"]

Array = npt.NDArray[np.float64]

SLIVER = 1e-9
"""A slab or cell thinner than this has no inside to test [mm]."""


@dataclass(frozen=True)
class Cells:
    """Four-sided cells with upright left and right sides.

    Attributes
    ----------
    rows : array of shape (n, 6)
        Left x, lower and upper y there, right x, lower and upper y there [mm].
    """

    rows: Array

    def __len__(self) -> int:
        return len(self.rows)

    def near(self, a: Array, b: Array, reach: float) -> Cells:
        """Keep the cells whose bounding box comes within `reach` of the box around two points [mm]."""
        r, low, high = self.rows, np.minimum(a, b) - reach, np.maximum(a, b) + reach
        side = (r[:, 0] <= high[0]) & (r[:, 3] >= low[0])
        floor, top = np.minimum(r[:, 1], r[:, 4]), np.maximum(r[:, 2], r[:, 5])
        return Cells(r[side & (floor <= high[1]) & (top >= low[1])])

    def corners(self) -> Array:
        """Corners in order round each cell, shape (n, 4, 2) [mm]."""
        r = self.rows
        return np.stack([r[:, [0, 1]], r[:, [3, 4]], r[:, [3, 5]], r[:, [0, 2]]], axis=1)

    def hold(self, points: Array) -> npt.NDArray[np.bool_]:
        """Tell for each point and cell whether the point lies in it, edges included; shape (p, n)."""
        x, y, r = points[:, :1], points[:, 1:], self.rows
        share = (x - r[:, 0]) / (r[:, 3] - r[:, 0])
        low = r[:, 1] + share * (r[:, 4] - r[:, 1])
        high = r[:, 2] + share * (r[:, 5] - r[:, 2])
        return (x >= r[:, 0]) & (x <= r[:, 3]) & (y >= low) & (y <= high)

    def each_distance(self, points: Array) -> Array:
        """Distance of each point to each cell, shape (p, n) [mm]."""
        start = self.corners()
        side = np.roll(start, -1, axis=1) - start
        size = np.maximum((side**2).sum(axis=2), 1e-300)
        away = points[:, None, None, :] - start
        share = np.clip((away * side).sum(axis=3) / size, 0, 1)
        gap: Array = np.sqrt(((away - share[..., None] * side) ** 2).sum(axis=3)).min(axis=2)
        gap[self.hold(points)] = 0.0
        return gap

    def distance(self, points: Array) -> Array:
        """Distance of each point to the nearest cell, infinite where there is none [mm]."""
        if not len(self):
            return np.full(len(points), np.inf)
        nearest: Array = self.each_distance(points).min(axis=1)
        return nearest


@lru_cache(maxsize=64)
def cut_up(sheet: Ground) -> tuple[Cells, Cells]:
    """Cut a face into cells.

    Parameters
    ----------
    sheet : Ground
        The face.

    Returns
    -------
    tuple of (Cells, Cells)
        F (the face minus its openings, minus the zone), and the zone within the outline.
    """
    ys = sorted({0.0, *sheet.heights()})
    outside: list[list[float]] = []
    zone: list[list[float]] = []
    for left, right in pairwise(_places(sheet, ys)):
        if right - left > SLIVER:
            for kind, cell in _slab(sheet, ys, left, right):
                (zone if kind == "zone" else outside).append(cell)
    return Cells(_table(outside)), Cells(_table(zone))


def _table(rows: list[list[float]]) -> Array:
    return np.array(_joined(rows), dtype=float).reshape(-1, 6)


def _joined(rows: list[list[float]]) -> list[list[float]]:
    """Join level cells that continue one another from slab to slab."""
    kept: list[list[float]] = []
    for row in rows:
        flat = row[1] == row[4] and row[2] == row[5]
        mate = (
            next((k for k in kept if k[3] == row[0] and k[1:3] == k[4:6] == row[1:3]), None) if flat else None
        )
        if mate is None:
            kept.append(list(row))
        else:
            mate[3:] = row[3:]
    return kept


def _places(sheet: Ground, ys: list[float]) -> list[float]:
    """Every x at which the order or the kind of the cells may change [mm]."""
    xs = {*sheet.places(), *(x for line in sheet.slopes() for x, _ in line)}
    for y in ys:
        xs |= {x for line in sheet.slopes() for x in _crossings(line, y)}
    return sorted(x for x in xs if 0 <= x <= sheet.length)


def _crossings(line: Line, y: float) -> list[float]:
    return [
        a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
        for a, b in pairwise(line)
        if (a[1] - y) * (b[1] - y) < 0
    ]


def _slab(sheet: Ground, ys: list[float], left: float, right: float) -> list[tuple[str, list[float]]]:
    """Cells of one slab from the floor up, those of one kind joined."""
    mid = (left + right) / 2
    lines: list[Line] = [*(((0.0, y), (sheet.length, y)) for y in ys), *sheet.slopes()]
    roof = top_at(sheet.top, mid)
    edges = sorted((top_at(line, mid), i) for i, line in enumerate(lines) if 0 <= top_at(line, mid) <= roof)
    found: list[tuple[str, list[float]]] = []
    for (low, i), (high, j) in pairwise(edges):
        kind = _kind(sheet, mid, (low + high) / 2) if high - low > SLIVER else ""
        for name in kind.split():
            ends = [top_at(lines[k], x) for x in (left, right) for k in (i, j)]
            _stack(found, name, [left, ends[0], ends[1], right, ends[2], ends[3]])
    return found


def _stack(found: list[tuple[str, list[float]]], name: str, cell: list[float]) -> None:
    below = next((row for kind, row in reversed(found) if kind == name), None)
    if below is not None and abs(below[2] - cell[1]) + abs(below[5] - cell[4]) < SLIVER:
        below[2], below[5] = cell[2], cell[5]
    else:
        found.append((name, cell))


def _kind(sheet: Ground, x: float, y: float) -> str:
    if sheet.in_zone(x, y):
        return "zone"
    return "" if sheet.in_opening(x, y) else "face"
