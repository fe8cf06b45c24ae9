"""Joists and what is cut in them."""

from typing import Annotated, Literal

from zonelib.site.fields import Id, Number, Piece, Size, known

__all__ = ["Hole", "Joist", "Notch", "Protection"]

Protection = Annotated[str, known("protections")]


class Hole(Piece):
    """A hole: centre along the span from one support and above the joist's bottom [mm]."""

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
