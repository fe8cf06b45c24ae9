"""The ``number`` kind: what is asked, in which unit, and how near is near enough."""

from typing import Annotated, Literal

from pydantic import Field

from zonelib.site.fields import Id, Length, Number, Piece, Size

__all__ = ["UNITS", "NumberTask"]

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
"""Millimetres in each unit."""


class NumberTask(Piece):
    """A number to be found.

    Attributes
    ----------
    ask : str
        ``deepest-chase``: how deep the chase of a route may be; ``chase-cut``: how deep it is;
        ``outside-zone``: how far a route lies outside the zone at its worst; ``clear-depth``: the depth at
        which a face begins to be, or ceases to be, concerned; ``largest-hole`` and ``deepest-notch``: the
        greatest one that the joist allows.
    of : str
        The route, hole or notch of the case that is asked of.
    leg : int or None
        The leg that is asked of, counted from 1, where legs differ.
    face : str or None
        The face that is asked of.
    unit : str
        ``mm``, ``cm`` or ``m``.
    tolerance : float
        How far off still counts as right [unit].
    half : float
        How far off still earns half of the marks [unit]; 0 for none.
    allowed : tuple of float
        Least and greatest number that is taken for an answer [unit].
    """

    ask: Literal["deepest-chase", "chase-cut", "outside-zone", "clear-depth", "largest-hole", "deepest-notch"]
    of: Id
    leg: Annotated[int, Field(ge=1)] | None = None
    face: Literal["front", "rear"] | None = None
    unit: Literal["mm", "cm", "m"] = "mm"
    tolerance: Size
    half: Length = 0.0
    allowed: tuple[Number, Number]
