"""A room's walls in a row: one coordinate along all of them, and back."""

import math
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

from zonelib.site.model import Case
from zonelib.site.plan import edges
from zonelib.site.room import Room, RoomWall
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Part", "Ring", "ring_of", "rings_of"]

Point = tuple[float, float]


@dataclass(frozen=True)
class Part:
    """A straight piece of a route on one wall.

    Attributes
    ----------
    wall : int
        Which wall of the room, counted from 0.
    start, end : tuple of float
        Its ends in that wall's front view [mm].
    shares : tuple of float
        Where it begins and ends, as shares of the whole leg.
    """

    wall: int
    start: Point
    end: Point
    shares: tuple[float, float]


@dataclass(frozen=True)
class Ring:
    """The walls of a room side by side, as seen by one who turns round in it.

    Attributes
    ----------
    room : Room
        The room.
    walls : tuple of RoomWall
        Its walls in order.
    """

    room: Room
    walls: tuple[RoomWall, ...]

    @cached_property
    def starts(self) -> tuple[float, ...]:
        """Where each wall begins, and where the last one ends [mm]."""
        return tuple(accumulate((wall.length for wall in self.walls), initial=0.0))

    @property
    def length(self) -> float:
        """Once round the room [mm]."""
        return self.starts[-1]

    def at(self, x: float) -> tuple[int, float]:
        """Return which wall an x lies on, and where on it [mm].

        The row goes round: past its end it begins anew. An x in a corner belongs to the wall right of it,
        that of the row's end to the last wall.
        """
        once = x if abs(x - self.length) <= TOLERANCE else x % self.length
        index = min(bisect_right(self.starts, once + TOLERANCE) - 1, len(self.walls) - 1)
        return index, once - self.starts[index]

    def in_plan(self, x: float) -> Point:
        """Return where an x lies in the plan [mm]."""
        index, along = self.at(x)
        (x0, y0), (x1, y1) = edges(self.room.plan)[index]
        share = along / self.walls[index].length
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def parts(self, start: Point, end: Point) -> Iterator[Part]:
        """Yield a leg cut at the corners it passes, each piece on its own wall [mm]."""
        cuts = [0.0, *self._crossed(start[0], end[0]), 1.0]
        for low, high in pairwise(cuts):
            middle = start[0] + (low + high) / 2 * (end[0] - start[0])
            index, along = self.at(middle)
            shift = along - middle
            ends = [
                (start[0] + share * (end[0] - start[0]) + shift, start[1] + share * (end[1] - start[1]))
                for share in (low, high)
            ]
            yield Part(index, ends[0], ends[1], (low, high))

    def _crossed(self, start: float, end: float) -> list[float]:
        """Return where a leg passes a corner, as shares of its length."""
        low, high = sorted((start, end))
        inside = self._corners(low + TOLERANCE, high - TOLERANCE)
        return sorted((x - start) / (end - start) for x in inside)

    def _corners(self, low: float, high: float) -> Iterator[float]:
        """Yield every x between two at which a wall begins, turn after turn."""
        for turn in range(math.floor(low / self.length), math.floor(high / self.length) + 1):
            lap = turn * self.length
            first = bisect_right(self.starts, low - lap)
            for x in self.starts[first:-1]:
                if lap + x >= high:
                    break
                yield lap + x


def rings_of(case: Case) -> dict[str, Ring]:
    """Return the walls of each room of a case, in a row, by the room's id."""
    walls: dict[str, list[RoomWall]] = {room.id: [] for room in case.rooms}
    for wall in case.walls:
        if isinstance(wall, RoomWall):
            walls[wall.room].append(wall)
    return {
        room.id: Ring(room, tuple(sorted(walls[room.id], key=lambda wall: wall.number)))
        for room in case.rooms
    }


def ring_of(case: Case, room: str) -> Ring:
    """Return the walls of one room of a case, in a row."""
    return rings_of(case)[room]
