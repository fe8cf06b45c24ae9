"""One room laid over another: where each place of the first lies in the second."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from zonelib.coach.variants.marks import Edges, Placed, edges, walls_xs, walls_ys
from zonelib.rules.pack import Pack
from zonelib.site.fields import Point
from zonelib.site.geometry import height_at
from zonelib.site.model import Case
from zonelib.site.ring import ring_of

__all__ = ["Stretch", "placed_walls"]


def placed_walls(case: Case, *, wall: str = "", room: str = "") -> Placed:
    """Return the walls of a room in a row, or a single one."""
    if not room:
        return ((case.wall(wall), 0.0),)
    ring = ring_of(case, room)
    return tuple(zip(ring.walls, ring.starts, strict=False))


@dataclass(frozen=True)
class Stretch:
    """Where places on a wall, or round a room, lie after its edges have moved.

    Attributes
    ----------
    before, after : tuple
        The walls in a row.
    pack : Pack
        By which rules there are zones.
    pins : tuple of pairs of points
        Places that are known to move, such as where a cable starts [mm].
    first : tuple of str
        Accessories that a place moves with rather than with others of the same height.
    """

    before: Placed
    after: Placed
    pack: Pack
    pins: tuple[tuple[Point, Point], ...] = ()
    first: tuple[str, ...] = ()

    def point(self, point: Point) -> Point:
        """Return where a point lies.

        Raises
        ------
        Crossed
            If two edges have changed places.
        """
        x, y = point
        at = self._x(x)
        return at, self._y(y, x, at)

    def points(self, points: Sequence[Sequence[float]]) -> list[list[float]]:
        """Return where points lie, as data."""
        return [list(self.point((x, y))) for x, y in points]

    def _x(self, x: float) -> float:
        return self._across.moved(x)

    @cached_property
    def _across(self) -> Edges:
        before, after = (walls_xs(placed, self.pack, self.first) for placed in (self.before, self.after))
        pinned = [(old[0], new[0]) for old, new in self.pins]
        return edges([old for old, _ in pinned] + before, [new for _, new in pinned] + after)

    def _y(self, y: float, x: float, at: float) -> float:
        number = max((n for n, (_, start) in enumerate(self.before) if start <= x + 0.01), default=0)
        (old, start), (new, begun) = self.before[number], self.after[number]
        tops = height_at(old, x - start), height_at(new, at - begun)
        if (number, tops) not in self._upward:
            heights = (walls_ys(*one, self.pack, self.first) for one in zip((old, new), tops, strict=True))
            # what is high at one place may be above a slope at another
            self._upward[number, tops] = edges(*heights, strict=False)
        return self._upward[number, tops].moved(y)

    @cached_property
    def _upward(self) -> dict[tuple[int, tuple[float, float]], Edges]:
        """The heights that were asked for, by wall and by its top there."""
        return {}
