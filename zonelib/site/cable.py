"""A cable and what it lies in."""

from typing import Annotated

from zonelib.site.fields import Piece, Size, known

__all__ = ["Cable", "Protection"]

Protection = Annotated[str, known("protections")]


class Cable(Piece):
    """Outside size of a cable [mm]; a flat one lies with its width along what it is fixed to."""

    width: Size
    thickness: Size
