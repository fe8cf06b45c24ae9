"""A room unfolded: its walls side by side as one long wall, to be drawn."""

from collections.abc import Iterator

from zonelib.site.fields import Number
from zonelib.site.plan import corner_at
from zonelib.site.ring import Ring
from zonelib.site.room import Room, RoomWall
from zonelib.site.wall import Face, Wall

__all__ = ["Row", "row_of"]

STEP = 0.01
"""Where the ceiling steps between two walls, so far apart are the two heights in the drawing [mm]."""


class Row(Wall):
    """The walls of a room side by side, each inner face seen from inside.

    Attributes
    ----------
    room : Room
        The room.
    walls : tuple of RoomWall
        The walls, left to right.
    starts : tuple of float
        Where each begins [mm].
    """

    room: Room
    walls: tuple[RoomWall, ...]
    starts: tuple[Number, ...]

    @property
    def ring(self) -> Ring:
        """The room's walls, to be asked where an x lies."""
        return Ring(self.room, self.walls)

    @property
    def placed(self) -> Iterator[tuple[RoomWall, float]]:
        """Each wall and where it begins [mm]."""
        return zip(self.walls, self.starts, strict=True)


def row_of(ring: Ring) -> Row:
    """Return a room's walls in a row."""
    starts = ring.starts[:-1]
    placed = tuple(zip(ring.walls, starts, strict=True))
    return Row(
        id=ring.room.id, length=ring.length, top=tuple(_top(placed)), thickness=ring.room.thickness,
        build=ring.room.build, room=ring.room, walls=ring.walls, starts=starts, front=_front(ring),
        openings=tuple(
            one.model_copy(update={"x": one.x + start}) for wall, start in placed for one in wall.openings
        ),
        accessories=tuple(
            one.model_copy(update={"x": one.x + start}) for wall, start in placed for one in wall.accessories
        ),
    )  # fmt: skip


def _top(placed: tuple[tuple[RoomWall, float], ...]) -> Iterator[tuple[float, float]]:
    """Yield the ceiling line, x rising: a step is drawn as the steepest of slopes."""
    reached = -1.0
    for wall, start in placed:
        for x, y in wall.profile:
            at = start + x if start + x > reached else reached + STEP
            yield at, y
            reached = at


def _front(ring: Ring) -> Face:
    plan, last = ring.room.plan, len(ring.walls)
    kinds = [(ring.starts[index], corner_at(plan, index % last)) for index in range(last + 1)]
    return Face(
        internal_corners=tuple(x for x, kind in kinds if kind == "internal"),
        external_corners=tuple(x for x, kind in kinds if kind == "external"),
        finish=ring.room.finish,
    )
