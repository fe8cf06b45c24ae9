"""A whole route, and the case made ready for all its routes."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from zonelib.rules.job import Job, Stage
from zonelib.rules.legs import legs_by_wall, legs_of
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.surface import Surface, surface_of
from zonelib.site.geometry import height_at
from zonelib.site.model import Accessory, Case, Route, Wall
from zonelib.site.ring import Ring, rings_of
from zonelib.site.room import RoomWall

__all__ = ["Journey", "Site"]


@dataclass(frozen=True)
class Journey(Stage):
    """A whole route, over one wall or several.

    Attributes
    ----------
    jobs : tuple of Job
        What it has on each wall.
    site : Site
        What is there.
    """

    jobs: tuple[Job, ...]
    site: "Site"

    @property
    def wall_id(self) -> str | None:
        """The wall it lies on; None where it runs over several."""
        return self.jobs[0].wall_id if len(self.jobs) == 1 else None

    @property
    def joined(self) -> Iterator[tuple[Accessory, float]]:
        """Each accessory it joins on its wall or in its room, with where that wall begins in its x [mm].

        A room's row goes round, so that each wall begins a whole turn before and after as well.
        """
        ring = self.site.rings.get(self.route.room or "")
        for name in self.route.joins:
            for wall, accessory in self.site.accessories.get(name, ()):
                if ring is None:
                    yield from [(accessory, 0.0)] if wall.id == self.route.wall else ()
                elif isinstance(wall, RoomWall) and wall.room == ring.room.id:
                    start = ring.starts[wall.number - 1]
                    yield from ((accessory, start + lap) for lap in (-ring.length, 0.0, ring.length))

    def ceiling(self, x: float) -> float:
        """Return the height of the wall's top at an x of the route [mm]."""
        ring = self.site.rings.get(self.route.room or "")
        if ring is None:
            return height_at(self.jobs[0].surface.wall, x)
        index, along = ring.at(x)
        return height_at(ring.walls[index], along)


@dataclass(frozen=True)
class Site:
    """A case made ready for its routes: each wall's areas, each room's row, and where each accessory is.

    Attributes
    ----------
    case : Case
        What is there.
    book : Rulebook
        Pack and readings.
    """

    case: Case
    book: Rulebook

    @cached_property
    def surfaces(self) -> dict[str, Surface]:
        """The walls, by id."""
        return {wall.id: surface_of(wall, self.book) for wall in self.case.walls}

    @cached_property
    def rings(self) -> dict[str, Ring]:
        """The rooms, by id."""
        return rings_of(self.case)

    @cached_property
    def accessories(self) -> dict[str, list[tuple[Wall, Accessory]]]:
        """Where each accessory that a route joins is; one in a shared wall is there from both rooms."""
        found: dict[str, list[tuple[Wall, Accessory]]] = {
            name: [] for route in self.case.routes for name in route.joins
        }
        for wall in self.case.walls:
            for accessory in wall.accessories:
                if accessory.id in found:
                    found[accessory.id].append((wall, accessory))
        return found

    def journey(self, route: Route) -> Journey:
        """Return a route with its legs laid on the walls they run in."""
        jobs = self._round_room(route) if route.room else (self._on_wall(route),)
        legs = sorted((leg for job in jobs for leg in job.legs), key=lambda leg: leg.from_mm)
        return Journey(route, self.book, tuple(legs), jobs, self)

    def _on_wall(self, route: Route) -> Job:
        surface = self.surfaces[route.wall or ""]
        return Job(route, self.book, legs_of(route, surface.wall, self.book), surface)

    def _round_room(self, route: Route) -> tuple[Job, ...]:
        ring = self.rings[route.room or ""]
        by_wall = legs_by_wall(route, ring, self.book) or {ring.at(route.points[0][0])[0]: ()}
        return tuple(
            Job(route, self.book, legs, self.surfaces[ring.walls[place].id])
            for place, legs in by_wall.items()
        )
