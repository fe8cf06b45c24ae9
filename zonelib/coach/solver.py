"""The shortest run that meets the rules, or the proof that there is none."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
from scipy import sparse
from scipy.sparse.csgraph import dijkstra
from shapely import Point
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.coach.field import Field, field_of
from zonelib.coach.run import length_of, run_of
from zonelib.coach.ways import Cost, Ints, Ways
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Case, Route, Via
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Blocked", "Cost", "Search", "Solution", "search_of", "shortest_route"]

MOST_ORDERS = 120
"""All orders of up to five accessories are tried."""


@dataclass(frozen=True)
class Solution:
    """The cheapest run on the graph of the search.

    Attributes
    ----------
    route : Route
        The run, with the way and covering of each leg.
    length, cost : float
        Its length, and its cost with bends and coverings [mm].
    verdict : Verdict
        The engine's word on it, in a case of its own.
    """

    route: Route
    length: float
    cost: float
    verdict: Verdict


@dataclass(frozen=True)
class Blocked:
    """Why there is no run without a covering: what it must join lies apart.

    Attributes
    ----------
    reached : geometry
        All that a cable can reach from its start, so placed and so covered [mm].
    missed : tuple of str
        The accessories that lie out of reach.
    gap : float
        The narrowest place between what is reached and what is missed [mm]; infinite where the missed
        ones have no place at all.
    cut : tuple of points or None
        The two ends of that narrowest place [mm].
    """

    reached: BaseGeometry
    missed: tuple[str, ...]
    gap: float
    cut: tuple[tuple[float, float], tuple[float, float]] | None

    @property
    def proven(self) -> bool:
        """Whether there is none at all, and not only none on the graph of the search."""
        return bool(self.missed)


def shortest_route(
    case: Case, pack: Pack, route: Route, *, start: tuple[float, float] | None = None,
    cost: Cost | None = None, covering: str = "", voids: Sequence[Via] = (),
) -> Solution | Blocked:  # fmt: skip
    """Return the cheapest run of level and upright legs that meets the rules.

    Parameters
    ----------
    case : Case
        What is there.
    pack : Pack
        By which rules.
    route : Route
        The cable: what it joins, its size, RCD and supply, and depth and covering as on its first leg.
    start : tuple of float, optional
        Where one end is given [mm]; by default it may start at any accessory it joins.
    cost : Cost, optional
        What bends and coverings cost.
    covering : str
        The covering to be used where `cost` allows one.
    voids : sequence of str
        Voids that it may pass: ``ceiling-void``, ``floor-void``.

    Returns
    -------
    Solution or Blocked
        The solution is the cheapest on the graph of all lines through the edges of the zones, the
        openings and the accessories. Without coverings and voids `Blocked` is a proof: places that a
        cable can reach from one another form one piece of the area in which its centre line may lie.

    Raises
    ------
    ValueError
        If the route joins nothing, or more than five accessories.
    """
    search = search_of(case, pack, route, start=start, voids=voids)
    return search.cheapest(cost or Cost(), covering=covering)


@dataclass(frozen=True)
class Search:
    """A cable to be run on given walls, of which several runs may be sought: the graph is made once.

    Attributes
    ----------
    case, pack, route, start : Case, Pack, Route, tuple of float or None
        As for `shortest_route`.
    ways : Ways
        The graph.
    """

    case: Case
    pack: Pack
    route: Route
    start: tuple[float, float] | None
    ways: Ways

    def cheapest(self, cost: Cost, *, covering: str = "") -> Solution | Blocked:
        """Return what `shortest_route` does, for one cost of several."""
        ways = self.ways.priced(cost)
        found = _cheapest(ways, self.start)
        if found is None:
            return _blocked(ways.field, self.start)
        nodes, total = found
        run = run_of(ways, nodes, self.route, covering=covering)
        alone = self.case.model_copy(update={"routes": (run,)})
        return Solution(run, length_of(ways.field, run), total, judge(alone, self.pack))


def search_of(
    case: Case,
    pack: Pack,
    route: Route,
    *,
    start: tuple[float, float] | None = None,
    voids: Sequence[Via] = (),
) -> Search:
    """Return the search of a cable's run, its graph made ready: see `shortest_route`."""
    field = field_of(case, Rulebook(pack, case.readings), route, through=(start,) if start else ())
    ways = Ways(field, Cost(), tuple(voids))
    return Search(case, pack, route, start, ways)


def _cheapest(ways: Ways, start: tuple[float, float] | None) -> tuple[list[int], float] | None:
    stops = _stops(ways, start)
    if any(not len(nodes) for nodes in stops.values()):
        return None
    names = [name for name in stops if name != ""]
    if not names:
        raise ValueError("a route to be found must join one accessory or more")
    orders = list(permutations(names)) if start else [one for one in permutations(names) if one[0] <= one[-1]]
    if len(orders) > MOST_ORDERS:
        raise ValueError(f"{len(names)} accessories to join; at most 5 are tried in every order")
    graph = ways.graph()
    layers = _layers(graph + graph.T, len(_with_start(orders[0], start)) - 1)
    tried = (_in_order(layers, [stops[name] for name in _with_start(order, start)]) for order in orders)
    return min((one for one in tried if one), key=lambda one: one[1], default=None)


def _with_start(order: tuple[str, ...], start: tuple[float, float] | None) -> tuple[str, ...]:
    return ("", *order) if start else order


def _stops(ways: Ways, start: tuple[float, float] | None) -> dict[str, Ints]:
    """Return the crossings at the start and on each accessory's rectangle, edges included."""
    x, y = np.repeat(ways.xs, len(ways.ys)), np.tile(ways.ys, len(ways.xs))
    stops = {}
    if start:
        away = np.hypot(x - start[0], y - start[1])
        stops[""] = np.flatnonzero(away <= max(TOLERANCE, away.min()))
    for name, (one, at) in ways.field.targets().items():
        left, bottom, right, top = one.bounds
        across = (x >= at + left - TOLERANCE) & (x <= at + right + TOLERANCE)
        stops[name] = np.flatnonzero(across & (y >= bottom - TOLERANCE) & (y <= top + TOLERANCE))
    return stops


def _layers(graph: sparse.csr_array, legs: int) -> sparse.coo_array:
    """Return the graph once for each leg between stops."""
    layers: sparse.coo_array = sparse.block_diag([graph] * max(legs, 1), format="coo")
    return layers


def _in_order(layers: sparse.coo_array, stops: list[Ints]) -> tuple[list[int], float] | None:
    """Return the cheapest way through one node of each stop in turn: a layer of the graph for each leg."""
    legs = len(stops) - 1
    if legs == 0:
        return None
    size = layers.shape[0] // legs
    between = [_both(stops[leg], size) for leg in range(1, legs)]
    links = [(nodes + leg * size, nodes + (leg + 1) * size) for leg, nodes in enumerate(between)]
    rows = np.concatenate([layers.coords[0], *(one for one, _ in links)])
    columns = np.concatenate([layers.coords[1], *(other for _, other in links)])
    costs = np.concatenate([layers.data, *(np.full(len(one), 1e-9) for one, _ in links)])
    # Older scipy searches graphs of short numbers only.
    places = rows.astype(np.intc), columns.astype(np.intc)
    whole = sparse.csr_array((costs, places), shape=layers.shape)
    sources = _both(stops[0], size)
    far, before, _ = dijkstra(whole, indices=sources, min_only=True, return_predecessors=True)
    ends = _both(stops[-1], size) + (legs - 1) * size
    best = ends[np.argmin(far[ends])]
    return (_back(before, int(best), size), float(far[best])) if np.isfinite(far[best]) else None


def _both(nodes: Ints, size: int) -> Ints:
    return np.concatenate([nodes, nodes + size // 2])


def _back(before: npt.NDArray[np.integer[Any]], node: int, size: int) -> list[int]:
    found = []
    while node >= 0:
        found.append(node % size)
        node = int(before[node])
    return found[::-1]


def _blocked(field: Field, start: tuple[float, float] | None) -> Blocked:
    """Return what can be reached, what cannot, and the narrowest place between."""
    pieces = [piece for piece in shapely.get_parts(field.allowed) if piece.area > 0]
    homes = {
        name: [piece for piece in pieces if piece.distance(translate(accessory_box(one), at)) <= TOLERANCE]
        for name, (one, at) in field.targets().items()
    }
    if start:
        homes = {"": [piece for piece in pieces if piece.distance(Point(start)) <= SLACK], **homes}
    first = next(iter(homes))
    reached = shapely.union_all(homes[first])
    missed = {name: home for name, home in homes.items() if not any(one in homes[first] for one in home)}
    others = shapely.union_all([piece for home in missed.values() for piece in home])
    if reached.is_empty or others.is_empty:
        return Blocked(reached, tuple(missed), math.inf, None)
    cut = shapely.get_coordinates(shapely.shortest_line(reached, others)).tolist()
    return Blocked(reached, tuple(missed), float(reached.distance(others)), (tuple(cut[0]), tuple(cut[1])))


SLACK = 1.0
"""How far a given start may lie beside what is allowed [mm]."""
