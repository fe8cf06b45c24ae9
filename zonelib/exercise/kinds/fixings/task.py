"""What is asked: things to hang on a face, each with its fixings."""

from typing import Annotated

from pydantic import Field

from zonelib.site.fields import Id, Number, Piece, Point, Size
from zonelib.site.model import Side

__all__ = ["FixingsTask", "Item"]


class Item(Piece):
    """One rigid thing.

    Attributes
    ----------
    id, words : str
        Its name on the drawing, and what it is.
    width, height : float
        Its size [mm].
    fixings : tuple of tuple of float
        Where its fixings are, from its lower left corner [mm].
    between : tuple of float or None
        Least and greatest height of its lower edge above the floor [mm].
    """

    id: Id
    words: Annotated[str, Field(min_length=1, max_length=80)]
    width: Size
    height: Size
    fixings: Annotated[tuple[Point, ...], Field(min_length=1, max_length=20)]
    between: tuple[Number, Number] | None = None


class FixingsTask(Piece):
    """Things to hang; penetration and diameter are those of every fixing [mm]."""

    wall: Id
    face: Side = "front"
    penetration: Size
    diameter: Size
    items: Annotated[tuple[Item, ...], Field(min_length=1, max_length=20)]
