"""The case: what a file says about walls, accessories, cables, joists and fixings."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.site.fields import PER_LEG, Flag, Id, Length, Number, Piece, Point, Size, known, one_or_per_leg
from zonelib.site.timber import Joist, Protection

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
    "Wall",
    "other_side",
]

Side = Literal["front", "rear"]


def other_side(side: Side) -> Side:
    """Return the face behind a face."""
    return "rear" if side == "front" else "front"


class Face(Piece):
    """One finished face of a wall; corners are x in the front view, finish its thickness [mm]."""

    internal_corners: tuple[Number, ...] = ()
    external_corners: tuple[Number, ...] = ()
    finish: Length = 13.0
    worktop: Flag = False


class Opening(Piece):
    """A door, window or hatch; x and y are its lower left corner in the front view [mm].

    Some packs ask on which side a door's lock is, seen from the front.
    """

    id: Id
    kind: Literal["door", "window", "hatch"]
    x: Number
    y: Number
    width: Size
    height: Size
    lock_side: Literal["left", "right", "both"] | None = None

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top [mm]."""
        return self.x, self.y, self.x + self.width, self.y + self.height


class Accessory(Piece):
    """A point, accessory or item of switchgear; x and y are its centre in the front view [mm]."""

    id: Id
    kind: Annotated[str, known("kinds")]
    face: Side
    x: Number
    y: Number
    width: Size
    height: Size
    locatable_from_reverse: Flag | None = None
    visible: Flag = True

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top [mm]."""
        half_width, half_height = self.width / 2, self.height / 2
        return self.x - half_width, self.y - half_height, self.x + half_width, self.y + half_height


class Wall(Piece):
    """A wall with its two faces; x runs from the left end of the front face, y from the floor [mm]."""

    id: Id
    length: Size
    height: Size | None = None
    top: Annotated[tuple[Point, ...], Field(min_length=2)] | None = None
    thickness: Size
    build: Annotated[str, known("builds")]
    leaf: Size | None = None
    front: Face = Face()
    rear: Face = Face()
    openings: tuple[Opening, ...] = ()
    accessories: tuple[Accessory, ...] = ()

    @property
    def profile(self) -> tuple[tuple[float, float], ...]:
        """The line of the wall's top, left to right [mm]."""
        if self.top is not None:
            return self.top
        height = self.height or 0.0
        return (0.0, height), (self.length, height)

    @property
    def chased_leaf(self) -> float:
        """Thickness of the leaf a chase is cut in [mm]."""
        if self.leaf is not None:
            return self.leaf
        return self.thickness - self.front.finish - self.rear.finish

    def face(self, side: Side) -> Face:
        """Return one face."""
        return self.front if side == "front" else self.rear


class Rcd(Piece):
    """A residual current device: rating [mA], where it sits, and whether it is time-delayed."""

    ma: Size
    at: Literal["origin", "outlet"] = "origin"
    delayed: Flag = False


class Cable(Piece):
    """Outside size of a cable [mm]; a flat one lies with its width along the wall."""

    width: Size
    thickness: Size


def _unprotected(data: dict[str, Any]) -> tuple[str, ...]:
    return ("none",) * (len(data.get("points", ())) - 1)


class Route(Piece):
    """A cable's way over one wall: points [mm, front view], and depth and protection per leg."""

    id: Id
    wall: Id
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
    """Everything one file says; the unit the engine judges."""

    pack: Id
    readings: dict[str, str] = Field(default_factory=dict)
    walls: tuple[Wall, ...] = ()
    routes: tuple[Route, ...] = ()
    joists: tuple[Joist, ...] = ()
    fixings: tuple[Fixing, ...] = ()

    def wall(self, identity: str) -> Wall:
        """Return the wall of that id."""
        return next(wall for wall in self.walls if wall.id == identity)
