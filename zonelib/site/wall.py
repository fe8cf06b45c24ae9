"""Walls and what is on them: faces, openings, accessories."""

from typing import Annotated, Literal

from pydantic import Field

from zonelib.site.fields import Flag, Id, Length, Number, Piece, Point, Size, known

__all__ = ["Accessory", "Face", "Opening", "Side", "Wall", "other_side"]

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
