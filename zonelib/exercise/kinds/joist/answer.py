"""Cuts in a joist as a trainee places them."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.site.fields import Id, Number, Piece, Size

__all__ = ["CutHole", "CutNotch", "JoistAnswer", "canonical"]

MOST_CUTS = 40
"""More than any joist can bear."""


class CutHole(Piece):
    """A hole: centre along the span and above the joist's bottom, and diameter [mm]."""

    x: Number
    y: Number
    diameter: Size
    protection: Id = "none"


class CutNotch(Piece):
    """A notch: centre along the span, length along it, and depth from its edge [mm]."""

    x: Number
    length: Size
    depth: Size
    edge: Literal["top", "bottom"] = "top"
    protection: Id = "none"


class JoistAnswer(Piece):
    """Holes and notches, in any order."""

    holes: Annotated[tuple[CutHole, ...], Field(max_length=MOST_CUTS)] = ()
    notches: Annotated[tuple[CutNotch, ...], Field(max_length=MOST_CUTS)] = ()

    def named_holes(self) -> dict[str, CutHole]:
        """Return the holes by the names they have in pictures and words."""
        return {f"A{number}": one for number, one in enumerate(self.holes, start=1)}

    def named_notches(self) -> dict[str, CutNotch]:
        """Return the notches by the names they have in pictures and words."""
        return {f"B{number}": one for number, one in enumerate(self.notches, start=1)}


def canonical(answer: JoistAnswer) -> Any:
    """Return the cuts in one order, each once."""
    data = answer.model_dump(mode="json")
    return {part: sorted({repr(sorted(one.items())) for one in data[part]}) for part in ("holes", "notches")}
