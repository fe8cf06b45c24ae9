"""Joists, studs, what is cut in them, and cables clipped along them."""

from typing import Annotated, Literal

from pydantic import Field

from zonelib.site.cable import Cable, Protection
from zonelib.site.fields import Flag, Id, Number, Piece, Size

__all__ = ["Hole", "Joist", "Notch", "Run", "Stud", "StudNotch"]


class Hole(Piece):
    """A hole; in a joist x is its centre along the span and y above the joist's bottom [mm].

    In a stud x is its centre from the front edge, across the stud, and y above the stud's foot.
    """

    id: Id
    x: Number
    y: Number
    diameter: Size
    cable_diameter: Size | None = None
    protection: Protection = "none"


class Notch(Piece):
    """A notch: centre along the span, length along it, and depth from its edge [mm]."""

    id: Id
    x: Number
    length: Size
    depth: Size
    edge: Literal["top", "bottom"]
    protection: Protection = "none"


class Joist(Piece):
    """A floor, ceiling or roof member; x runs along the clear span from one support [mm]."""

    id: Id
    kind: Literal["solid", "i-joist", "metal-web", "trussed-rafter", "rafter"]
    depth: Size
    width: Size
    span: Size
    holes: tuple[Hole, ...] = ()
    notches: tuple[Notch, ...] = ()


class StudNotch(Piece):
    """A notch in a stud: centre above its foot, length along it, and depth from its edge [mm]."""

    id: Id
    y: Number
    length: Size
    depth: Size
    edge: Literal["front", "rear"]
    protection: Protection = "none"


class Stud(Piece):
    """An upright member of a wall; its depth runs from its front edge to its rear edge [mm].

    Whether it bears load is often not known on site: then it is taken as bearing, the narrower view.
    """

    id: Id
    depth: Size
    width: Size
    height: Size
    bearing: Flag | None = None
    holes: tuple[Hole, ...] = ()
    notches: tuple[StudNotch, ...] = ()


class Run(Piece):
    """A cable along a joist, in the void of a floor or a ceiling.

    Attributes
    ----------
    joist : str
        The joist it runs along.
    void : str
        What is fixed to the joist: a ``floor`` to its top, a ``ceiling`` to its bottom, or ``both``.
        Unknown is taken as both, the narrower view.
    place : str
        Clipped to the ``side`` of the joist, ``over`` its top edge, ``under`` its bottom edge,
        or laid ``on-ceiling`` between the joists.
    below_top, above_bottom : float or None
        For the side: from the joist's top, or from its bottom, to the nearest point of the cable
        or its conduit [mm]. One of the two is given.
    start, end : float or None
        Along the clear span from the support that holes are measured from [mm]; ``from`` and ``to``
        in a file; by default the whole span.
    outer : float or None
        Outside size of conduit or trunking [mm]; by default the pack's.
    """

    id: Id
    joist: Id
    void: Literal["floor", "ceiling", "both"] = "both"
    place: Literal["side", "over", "under", "on-ceiling"] = "side"
    below_top: Number | None = None
    above_bottom: Number | None = None
    start: Annotated[Number | None, Field(alias="from")] = None
    end: Annotated[Number | None, Field(alias="to")] = None
    supply: Literal["lv", "selv", "pelv"] = "lv"
    cable: Cable
    protection: Protection = "none"
    outer: Size | None = None
