"""The case: what a file says about walls, accessories, cables, timber and fixings."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.site.cable import Cable, Protection
from zonelib.site.fields import PER_LEG, Flag, Id, Number, Piece, Point, Size, one_or_per_leg
from zonelib.site.room import Room
from zonelib.site.timber import Joist, Run, Stud
from zonelib.site.wall import Accessory, Face, Opening, Side, Wall, other_side

__all__ = [
    "Accessory",
    "Cable",
    "Case",
    "Face",
    "Fixing",
    "Opening",
    "Rcd",
    "Route",
    "Side",
    "Via",
    "Wall",
    "other_side",
]

Via = Literal["wall", "ceiling-void", "floor-void"]


class Rcd(Piece):
    """A residual current device: rating [mA], where it sits, and whether it is time-delayed."""

    ma: Size
    at: Literal["origin", "outlet"] = "origin"
    delayed: Flag = False


def _unprotected(data: dict[str, Any]) -> tuple[str, ...]:
    return ("none",) * (len(data.get("points", ())) - 1)


def _in_wall(data: dict[str, Any]) -> tuple[Via, ...]:
    legs: list[Via] = ["wall"] * (len(data.get("points", ())) - 1)
    return tuple(legs)


class Route(Piece):
    """A cable's way over one wall or round a room: points [mm], and depth and protection per leg.

    On a wall, x counts in its front view. In a room it counts along all walls, unfolded side by side from
    the first one's left end. A leg runs in the wall, or in the void above the ceiling or below the floor.
    """

    id: Id
    wall: Id | None = None
    room: Id | None = None
    joins: tuple[Id, ...] = ()
    supply: Literal["lv", "selv", "pelv"] = "lv"
    rcd: Rcd | None = None
    cable: Cable
    points: Annotated[tuple[Point, ...], Field(min_length=2)]
    depth: Annotated[tuple[Number, ...], PER_LEG, one_or_per_leg("number")]
    depth_from: Side = "front"
    protection: Annotated[tuple[Protection, ...], PER_LEG, one_or_per_leg("string")] = Field(
        default_factory=_unprotected
    )
    outer: Size | None = None
    via: Annotated[tuple[Via, ...], PER_LEG, one_or_per_leg("string")] = Field(default_factory=_in_wall)


class Fixing(Piece):
    """A screw or nail into a face: penetration from the finished surface, and diameter [mm]."""

    id: Id
    wall: Id
    face: Side
    x: Number
    y: Number
    penetration: Size
    diameter: Size


class Case(Piece):
    """Everything one file says; the unit the engine judges.

    Once read, `walls` holds the walls of the rooms as well, each as a `RoomWall`.
    """

    schema_version: Literal[1] = Field(alias="schema", default=1)
    pack: Id
    readings: dict[str, str] = Field(default_factory=dict)
    walls: tuple[Wall, ...] = ()
    rooms: tuple[Room, ...] = ()
    routes: tuple[Route, ...] = ()
    joists: tuple[Joist, ...] = ()
    studs: tuple[Stud, ...] = ()
    runs: tuple[Run, ...] = ()
    fixings: tuple[Fixing, ...] = ()

    def wall(self, identity: str) -> Wall:
        """Return the wall of that id."""
        return next(wall for wall in self.walls if wall.id == identity)
