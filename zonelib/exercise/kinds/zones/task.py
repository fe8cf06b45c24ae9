"""What is asked: the zones of one face, for one cable or for every accessory."""

from zonelib.site.fields import Flag, Id, Length, Piece
from zonelib.site.model import Side

__all__ = ["ZonesTask"]


class ZonesTask(Piece):
    """A face whose zones are to be drawn.

    Attributes
    ----------
    wall, face : str
        What is drawn on.
    joins : tuple of str or None
        Accessories a cable is connected to, where its own zones are asked; None asks for all.
    widest : bool
        Whether zones are those that one who drills has to expect, with every reading at its widest.
    slack : float
        How far the edge of a drawn zone may lie from where it belongs [mm].
    """

    wall: Id
    face: Side = "front"
    joins: tuple[Id, ...] | None = None
    widest: Flag = False
    slack: Length = 15.0
