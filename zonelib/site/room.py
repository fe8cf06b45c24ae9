"""Rooms: a plan, what all walls of a room share, and what one wall has of its own."""

from typing import Annotated

from pydantic import Field

from zonelib.site.fields import Flag, Id, Length, Number, Piece, Point, Size, known
from zonelib.site.tolerance import above, below
from zonelib.site.wall import Accessory, Face, Opening, Wall

__all__ = ["Behind", "OwnWall", "Room", "RoomFace", "RoomWall", "known_behind"]


class RoomFace(Piece):
    """The face of a room's wall inside the room; its corners come from the plan."""

    finish: Length | None = None
    worktop: Flag | None = None


class OwnWall(Piece):
    """What one wall of a room has of its own; the rest is the room's.

    Walls count from 1: the first runs from the plan's first point to its second.
    """

    number: Annotated[int, Field(strict=True, ge=1)]
    height: Size | None = None
    top: Annotated[tuple[Point, ...], Field(min_length=2)] | None = None
    thickness: Size | None = None
    build: Annotated[str, known("builds")] | None = None
    leaf: Size | None = None
    front: RoomFace = RoomFace()
    rear: Face = Face()
    openings: tuple[Opening, ...] = ()
    accessories: tuple[Accessory, ...] = ()


class Room(Piece):
    """A room by its plan: the inner face of each wall, clockwise seen from above [mm].

    All rooms of a file lie in one plan, x to the right and y up the page. From inside, each wall then runs
    from left to right. Where the rear of a wall is the front of another room's, the plan says so: the two
    lie one wall's thickness apart.
    """

    id: Id
    plan: Annotated[tuple[Point, ...], Field(min_length=3, max_length=1000)]
    height: Size
    thickness: Size
    build: Annotated[str, known("builds")]
    leaf: Size | None = None
    finish: Length = 13.0
    worktop: Flag = False
    walls: tuple[OwnWall, ...] = ()


class Behind(Piece):
    """Another room's wall behind this one: its front is this wall's rear, seen the other way round.

    Attributes
    ----------
    wall : Wall
        The other room's wall, in its own front view.
    at : float
        Where that wall's left end lies on this one: an x there is `at` minus x here [mm].
    """

    wall: Wall
    at: Number

    @property
    def span(self) -> tuple[float, float]:
        """The part of this wall that it covers, uncut by this wall's ends [mm]."""
        return self.at - self.wall.length, self.at


class RoomWall(Wall):
    """One wall of a room, made from its plan.

    Attributes
    ----------
    room, number : str, int
        Which wall of which room; its id is ``room.number``.
    behind : tuple of Behind
        The walls of other rooms whose front is this wall's rear.
    """

    room: Id
    number: int
    behind: tuple[Behind, ...] = ()

    @property
    def alone(self) -> Wall:
        """The wall without the accessories of the rooms behind it: their strips end with their face."""
        theirs = {one.id for other in self.behind for one in other.wall.accessories if one.face == "front"}
        own = tuple(one for one in self.accessories if one.id not in theirs)
        return self.model_copy(update={"accessories": own, "behind": ()})


def known_behind(wall: Wall) -> bool:
    """Tell whether a file says what is on all of a wall's rear: a room's wall needs rooms behind it.

    A gap no wider than the wall is thick may be the end of the wall between two of those rooms.
    """
    if not isinstance(wall, RoomWall):
        return True
    reached = 0.0
    for left, right in sorted(other.span for other in wall.behind):
        reached = max(reached, right) if not above(left, reached + wall.thickness) else reached
    return not below(reached, wall.length)
