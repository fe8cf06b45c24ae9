"""What is asked: a joist, and the cables that have to cross it."""

from zonelib.site.fields import Id, Piece, Size

__all__ = ["HoleNeed", "JoistTask", "NotchNeed"]


class HoleNeed(Piece):
    """A cable that needs a hole: its diameter, and the least diameter of the hole [mm]."""

    cable: Size
    least: Size


class NotchNeed(Piece):
    """A cable that needs a notch: least length and least depth of the notch [mm]."""

    length: Size
    depth: Size


class JoistTask(Piece):
    """A joist to be cut.

    Attributes
    ----------
    joist : str
        Which of the case's; what is cut in it already stays.
    holes, notches : tuple of HoleNeed, NotchNeed
        One for each that is asked for; no more may be cut.
    protections : tuple of str
        Coverings on offer; a plate or nothing by default.
    """

    joist: Id
    holes: tuple[HoleNeed, ...] = ()
    notches: tuple[NotchNeed, ...] = ()
    protections: tuple[Id, ...] = ("none", "steel-plate")
