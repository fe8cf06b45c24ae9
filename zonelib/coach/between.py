"""The cheapest run between two points of a field, with no covering beyond what it has."""

import numpy as np
import shapely
from scipy import sparse
from scipy.sparse.csgraph import dijkstra
from shapely.affinity import translate

from zonelib.coach.field import Field
from zonelib.coach.run import run_of
from zonelib.coach.ways import Cost, Ints, Ways
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Between"]

Point = tuple[float, float]


class Between:
    """Runs over one field; its graph is made once.

    Parameters
    ----------
    field : Field
        Where the cable may run; its `through` names the points that are asked for.
    """

    def __init__(self, field: Field) -> None:
        self.field = field
        self._ways = Ways(field, Cost())
        graph = self._ways.graph()
        self._graph: sparse.csr_array = graph + graph.T
        self._places = np.array([self._ways.place(node) for node in range(self._ways.crossings)])

    def run(self, start: Point, end: Point) -> Route | None:
        """Return the cheapest run from one point to another, or None where there is none."""
        return self._cheapest(start, self._at(end))

    def run_to(self, start: Point, accessory: str) -> Route | None:
        """Return the cheapest run from a point to an accessory that the route joins, or None."""
        one, at = self.field.targets()[accessory]
        box = translate(accessory_box(one), at)
        away = shapely.distance(shapely.points(self._places), box)
        return self._cheapest(start, np.flatnonzero(away <= TOLERANCE))

    def _at(self, point: Point) -> Ints:
        away = np.hypot(*(self._places - np.array(point)).T)
        return np.flatnonzero(away <= TOLERANCE)

    def _cheapest(self, start: Point, ends: Ints) -> Route | None:
        sources, count = self._at(start), self._ways.crossings
        if not len(sources) or not len(ends):
            return None
        both, goals = np.concatenate([sources, sources + count]), np.concatenate([ends, ends + count])
        far, before, _ = dijkstra(self._graph, indices=both, min_only=True, return_predecessors=True)
        best = int(goals[np.argmin(far[goals])])
        if not np.isfinite(far[best]):
            return None
        nodes = [best]
        while before[nodes[-1]] >= 0:
            nodes.append(int(before[nodes[-1]]))
        return run_of(self._ways, nodes[::-1], self.field.route, covering="none")
