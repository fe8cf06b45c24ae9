"""The graph of a search: crossings of the lines a run may turn on, and the steps between them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely
from scipy import sparse
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.coach.field import Field, Floats
from zonelib.site.geometry import height_at
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Cost", "Ints", "Ways"]

Ints = npt.NDArray[np.intp]


@dataclass(frozen=True)
class Cost:
    """What a run costs beside its length.

    Attributes
    ----------
    bend : float
        For each turn of direction [mm of cable].
    covering : float or None
        For each mm laid where only a covering makes it right [mm of cable]; None forbids it.
    """

    bend: float = 50.0
    covering: float | None = None


@dataclass(frozen=True)
class Ways:
    """The crossings of a field's columns and rows, and the steps between neighbours.

    Each crossing is two nodes, one for a cable that runs level there and one for a cable that runs
    upright: to change from one to the other is a bend. Node numbers: level first, then upright.
    """

    field: Field
    cost: Cost
    voids: tuple[str, ...] = ()

    @cached_property
    def xs(self) -> Floats:
        """Columns [mm]."""
        return self.field.columns()

    @cached_property
    def ys(self) -> Floats:
        """Rows [mm]."""
        return self.field.rows()

    @property
    def crossings(self) -> int:
        """How many crossings there are."""
        return len(self.xs) * len(self.ys)

    def node(self, column: int, row: int) -> int:
        """Return the level node of a crossing; the upright one lies `crossings` higher."""
        return column * len(self.ys) + row

    def place(self, node: int) -> tuple[float, float]:
        """Return where a node lies [mm]."""
        column, row = divmod(node % self.crossings, len(self.ys))
        return float(self.xs[column]), float(self.ys[row])

    @cached_property
    def steps(self) -> tuple[Ints, Ints, Floats]:
        """Return every step: from, to and cost; each can be taken both ways."""
        parts = [*self._lines, self._turns(), *self._seam(), *self._through_voids()]
        starts, ends, costs = (np.concatenate(column) for column in zip(*parts, strict=True))
        return starts.astype(np.intp), ends.astype(np.intp), costs

    def graph(self) -> sparse.csr_array:
        """Return the steps as a sparse matrix; scipy takes a cost of 0 for no step, so none is 0."""
        starts, ends, costs = self.steps
        size, places = 2 * self.crossings, (starts.astype(np.intc), ends.astype(np.intc))
        return sparse.csr_array((np.maximum(costs, 1e-9), places), shape=(size, size))

    def priced(self, cost: Cost) -> "Ways":
        """Return the same graph under another cost; what does not hang on it is not made again."""
        other, alike = replace(self, cost=cost), ["xs", "ys", "_areas"]
        if cost.covering == self.cost.covering:
            alike.append("_lines")
        vars(other).update({name: getattr(self, name) for name in alike})
        return other

    @cached_property
    def _lines(self) -> list[tuple[Ints, Ints, Floats]]:
        """Every step along a row or a column."""
        return [*self._level(), *self._upright()]

    def _level(self) -> Iterator[tuple[Ints, Ints, Floats]]:
        for row, y in enumerate(self.ys):
            line = LineString([(-1.0, y), (self.field.length + 1.0, y)])
            costs = self._costs(line, self.xs, 0)
            nodes = np.arange(len(self.xs)) * len(self.ys) + row
            yield _both_kept(nodes[:-1], nodes[1:], costs)

    def _upright(self) -> Iterator[tuple[Ints, Ints, Floats]]:
        for column, x in enumerate(self.xs):
            line = LineString([(x, -1.0), (x, float(self.ys[-1]) + 1.0)])
            costs = self._costs(line, self.ys, 1)
            nodes = self.crossings + column * len(self.ys) + np.arange(len(self.ys))
            yield _both_kept(nodes[:-1], nodes[1:], costs)

    def _costs(self, line: LineString, marks: Floats, axis: int) -> Floats:
        """Return the cost of each step between neighbours along a line, infinite where none may run."""
        lengths = np.diff(marks)
        given = self._is_given(line, axis)
        free = _within(line, self.field.allowed if given else self._areas[axis], marks, axis)
        if self.cost.covering is None:
            return np.where(free, lengths, np.inf)
        walled = _within(line, self.field.wall_area if given else self._walled[axis], marks, axis)
        covered = np.where(walled, lengths * (1 + self.cost.covering), np.inf)
        return np.where(free, lengths, covered)

    def _is_given(self, line: LineString, axis: int) -> bool:
        """Tell whether an upright line goes through a given place, maybe at the very end of a wall."""
        return axis == 1 and any(abs(x - line.coords[0][0]) <= TOLERANCE for x, _ in self.field.through)

    @cached_property
    def _areas(self) -> tuple[BaseGeometry, BaseGeometry]:
        """Where level legs may lie, and where upright ones may, without a covering [mm]."""
        allowed = self.field.allowed
        return self.field.along(allowed, level=True), self.field.along(allowed, level=False)

    @cached_property
    def _walled(self) -> tuple[BaseGeometry, BaseGeometry]:
        """The same where a covering makes every place right [mm]."""
        walls = self.field.wall_area
        return self.field.along(walls, level=True), self.field.along(walls, level=False)

    def _turns(self) -> tuple[Ints, Ints, Floats]:
        nodes = np.arange(self.crossings)
        return nodes, nodes + self.crossings, np.full(self.crossings, max(self.cost.bend, 1e-6))

    def _seam(self) -> Iterator[tuple[Ints, Ints, Floats]]:
        """Yield the steps over the row's end, where a room begins anew."""
        if self.field.ring is not None and len(self.xs) > 1:
            rows = np.arange(len(self.ys))
            yield rows, rows + (len(self.xs) - 1) * len(self.ys), np.full(len(rows), 1e-6)

    def _through_voids(self) -> Iterator[tuple[Ints, Ints, Floats]]:
        """Yield the steps from the top or foot of the walls to any other, straight across the plan."""
        for via in self.voids:
            edge = np.array([self._edge_node(column, via) for column in range(len(self.xs))])
            plan = np.array([self.field.in_plan(float(x)) for x in self.xs])
            one, other = np.triu_indices(len(self.xs), k=1)
            far = np.hypot(*(plan[one] - plan[other]).T)
            known = (edge[one] >= 0) & (edge[other] >= 0)
            turned = far[known] + 2 * self.cost.bend
            yield self.crossings + edge[one][known], self.crossings + edge[other][known], turned

    def _edge_node(self, column: int, via: str) -> int:
        """Return the crossing at the top or foot of a column, -1 where none lies there."""
        if via == "floor-void":
            return self.node(column, 0) if abs(self.ys[0]) <= TOLERANCE else -1
        x = float(self.xs[column])
        wall, start = next(
            (one for one in reversed(self.field.placed) if one[1] <= x + TOLERANCE), self.field.placed[0]
        )
        rows = np.flatnonzero(np.abs(self.ys - height_at(wall, x - start)) <= TOLERANCE)
        return self.node(column, int(rows[0])) if len(rows) else -1


def _both_kept(starts: Ints, ends: Ints, costs: Floats) -> tuple[Ints, Ints, Floats]:
    kept = np.isfinite(costs)
    return starts[kept], ends[kept], costs[kept]


def _within(line: LineString, area: BaseGeometry, marks: Floats, axis: int) -> npt.NDArray[np.bool_]:
    """Tell for each step between neighbouring marks whether all of it lies in an area."""
    kept = np.zeros(len(marks) - 1, bool)
    for low, high in _spans(line.intersection(area), axis):
        kept |= (marks[:-1] >= low - TOLERANCE) & (marks[1:] <= high + TOLERANCE)
    return kept


def _spans(pieces: BaseGeometry, axis: int) -> list[tuple[float, float]]:
    """Return the pieces of a straight line as spans; those that touch are one."""
    spans: list[tuple[float, float]] = []
    ends = (shapely.get_coordinates(part)[:, axis] for part in shapely.get_parts(pieces))
    for low, high in sorted((float(one.min()), float(one.max())) for one in ends if len(one)):
        if spans and low <= spans[-1][1] + TOLERANCE:
            spans[-1] = spans[-1][0], max(high, spans[-1][1])
        else:
            spans.append((low, high))
    return spans
