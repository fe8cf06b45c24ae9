"""Limits for what may be cut in timber, as a pack states them."""

from typing import Annotated, Literal

from pydantic import Field

from zonelib.site.fields import Flag, Length, Piece, Size

__all__ = ["HoleLimits", "JoistKind", "JoistLimits", "NotchLimits"]

Share = Annotated[float, Field(gt=0, le=1)]


class HoleLimits(Piece):
    """Diameter as a share of depth, place as shares of span, spacing in diameters; off centre [mm]."""

    diameter: Share
    start: Share = Field(alias="from")
    to: Share
    off_centre: Length
    spacing: Size


class NotchLimits(Piece):
    """Depth as a share of the joist's, place as shares of the span; clearance from holes [mm]."""

    depth: Share
    start: Share = Field(alias="from")
    to: Share
    edges: tuple[Literal["top", "bottom"], ...]
    clear_of_holes: Length


class JoistKind(Piece):
    """A kind of member, whether it may be cut by rule, and who decides where it may not."""

    words: str
    may_be_cut: Flag = False
    who_decides: str


class JoistLimits(Piece):
    """The electrician's cover [mm] and the builder's limits on cutting."""

    cover: Size
    cover_clause: str
    clause: str
    deepest: Size
    kinds: dict[str, JoistKind]
    hole: HoleLimits
    notch: NotchLimits
