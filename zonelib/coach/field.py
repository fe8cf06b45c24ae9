"""Where a given cable may run: the walls of a route laid in a row, what is allowed on them, and its ways."""

from bisect import bisect_left, insort
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.rules.journey import Site
from zonelib.rules.legs import legs_of
from zonelib.rules.rulebook import Rulebook
from zonelib.site.geometry import face_outline, openings_area
from zonelib.site.model import Accessory, Case, Route, Side, Wall
from zonelib.site.ring import Ring
from zonelib.site.room import RoomWall
from zonelib.site.tolerance import TOLERANCE, below

__all__ = ["Field", "field_of"]

Floats = npt.NDArray[np.float64]
SIDES: tuple[Side, Side] = ("front", "rear")

ZONELESS = ("rcd-or-covering", "edge-clearance-only")
"""Policies under which a cable may run anywhere on its wall."""

SMALLEST = 1.0
"""Places nearer to each other than this are one in the search [mm]."""


@dataclass(frozen=True)
class Field:
    """Where one cable may run, at one depth and in one covering.

    Attributes
    ----------
    site : Site
        What is there.
    route : Route
        The cable; its points do not matter.
    placed : tuple
        Each wall it may use, with where its left end lies in the route's x [mm].
    through : tuple of points
        Places it has to be able to turn at [mm].
    """

    site: Site
    route: Route
    placed: tuple[tuple[Wall, float], ...]
    through: tuple[tuple[float, float], ...] = ()

    @property
    def ring(self) -> Ring | None:
        """The room, where the route runs in one."""
        return self.site.rings[self.route.room] if self.route.room else None

    @property
    def length(self) -> float:
        """Of all walls together [mm]."""
        wall, start = self.placed[-1]
        return start + wall.length

    def in_plan(self, x: float) -> tuple[float, float]:
        """Return where an x lies seen from above [mm]."""
        return self.ring.in_plan(x) if self.ring else (x, 0.0)

    @cached_property
    def wall_area(self) -> BaseGeometry:
        """All walls without their openings [mm]."""
        return _row([(face_outline(wall).difference(openings_area(wall)), x) for wall, x in self.placed])

    @cached_property
    def allowed(self) -> BaseGeometry:
        """Where the centre line may lie, its covering and its depth as they are [mm]."""
        return _row([(self._allowed_on(wall), start) for wall, start in self.placed])

    def _allowed_on(self, wall: Wall) -> BaseGeometry:
        outline = face_outline(wall).difference(openings_area(wall))
        probe = self.route.model_copy(update={"wall": wall.id, "room": None})
        leg = legs_of(probe, wall, self.site.book)[0]
        if any(below(leg.depth(side), 0.0) for side in SIDES):
            return Polygon()
        surface, job = self.site.surfaces[wall.id], self.site.journey(probe).jobs[0]
        if job.exempt(leg) or self.site.book.pack.walls.policy in ZONELESS:
            return outline
        barred = [surface.barred(side, self.route.joins) for side in SIDES if job.concerns(leg, side)]
        reach = leg.width / 2 if self.site.book.reading("width_inside") != "centre-line" else TOLERANCE
        # Mitred: level and upright legs gain nothing from a round corner, the search much from a sharp one.
        grown = shapely.union_all(barred).buffer(reach - TOLERANCE / 2, join_style="mitre")
        return outline.difference(grown)

    def along(self, area: BaseGeometry, *, level: bool) -> BaseGeometry:
        """Return the part of an area in which legs of one direction have wall beside them, half their width.

        The rules let a cable lie on the very edge of a wall or an opening; nobody would lay it there.
        """
        half = self.width / 2
        moved = [(0.0, half), (0.0, -half)] if level else [(half, 0.0), (-half, 0.0)]
        return shapely.intersection_all([area, *(translate(self.wall_area, x, y) for x, y in moved)])

    @cached_property
    def width(self) -> float:
        """Of the cable in its covering [mm]."""
        wall, _ = self.placed[0]
        probe = self.route.model_copy(update={"wall": wall.id, "room": None})
        return legs_of(probe, wall, self.site.book)[0].width

    def turning_areas(self) -> list[BaseGeometry]:
        """Return the areas at whose corners a run may turn [mm]."""
        every = (self.allowed, self.wall_area)
        return [self.along(area, level=level) for area in every for level in (True, False)]

    def targets(self) -> dict[str, tuple[Accessory, float]]:
        """Return each accessory the route joins, with where its wall begins in the route's x [mm]."""
        return {
            one.id: (one, start)
            for wall, start in self.placed
            for one in wall.accessories
            if one.id in self.route.joins
        }

    def columns(self) -> Floats:
        """Return every x at which a shortest run may turn [mm]."""
        bends = [x for area in self.turning_areas() for x in _bends(area, 0)]
        return _distinct([*self._xs(), *bends], self.length)

    def rows(self) -> Floats:
        """Return every y at which a shortest run may turn [mm]."""
        ceiling = max(y for wall, _ in self.placed for _, y in wall.profile)
        bends = [y for area in self.turning_areas() for y in _bends(area, 1)]
        return _distinct([*self._ys(), *bends], ceiling)

    def _xs(self) -> Iterator[float]:
        yield from (x for x, _ in self.through)
        yield from (start + one.x for one, start in self.targets().values())
        for wall, start in self.placed:
            yield from (start + x for x, _ in wall.profile)
        for one, start in self.targets().values():
            left, _, right, _ = one.bounds
            yield from (start + left, start + right)

    def _ys(self) -> Iterator[float]:
        yield from (y for _, y in self.through)
        yield from (one.y for one, _ in self.targets().values())
        yield 0.0
        for wall, _ in self.placed:
            yield from (y for _, y in wall.profile)
        for one, _ in self.targets().values():
            _, bottom, _, top = one.bounds
            yield from (bottom, top)


def field_of(
    case: Case, book: Rulebook, route: Route, *, through: tuple[tuple[float, float], ...] = ()
) -> Field:
    """Return where a route's cable may run.

    Parameters
    ----------
    case : Case
        What is there.
    book : Rulebook
        Pack and readings.
    route : Route
        The cable: what it joins, its size, depth and covering, each of its first leg.
    through : tuple of points
        Places it has to be able to turn at [mm].
    """
    site = Site(case, book)
    once = route.model_copy(
        update={
            "points": ((0.0, 0.0), (1.0, 0.0)), "depth": route.depth[:1],
            "protection": route.protection[:1], "via": ("wall",),
        }
    )  # fmt: skip
    if route.room is None:
        return Field(site, once, ((site.surfaces[route.wall or ""].wall, 0.0),), through)
    ring = site.rings[route.room]
    walls: tuple[RoomWall, ...] = ring.walls
    return Field(site, once, tuple(zip(walls, ring.starts, strict=False)), through)


def _row(pieces: list[tuple[BaseGeometry, float]]) -> BaseGeometry:
    return shapely.union_all([translate(area, start) for area, start in pieces])


def _bends(area: BaseGeometry, axis: int) -> list[float]:
    """Return the corners of an area along one axis [mm]."""
    found: list[float] = shapely.get_coordinates(area)[:, axis].tolist()
    return found


def _distinct(values: list[float], most: float) -> Floats:
    """Return the values in order, of two that lie together the one named first."""
    kept: list[float] = []
    for value in values:
        inside = min(max(value, 0.0), most)
        at = bisect_left(kept, inside - SMALLEST)
        if at == len(kept) or kept[at] > inside + SMALLEST:
            insort(kept, inside)
    return np.array(kept)
