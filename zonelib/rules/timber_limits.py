"""Limits for what may be cut in timber, as a pack states them."""

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from zonelib.site.fields import Flag, Length, Piece, Size

__all__ = ["HoleLimits", "JoistKind", "JoistLimits", "NotchLimits", "StudLimits", "StudShares"]

_FRACTION = re.compile(r"([1-9][0-9]{0,5})/([1-9][0-9]{0,5})")


def _part(value: Any) -> Any:
    """Return a fraction in quotes as a number: a standard says a third, and no decimal is one."""
    if not isinstance(value, str):
        return value
    parts = _FRACTION.fullmatch(value)
    if parts is None:
        raise PydanticCustomError("share", 'a number such as 0.25, or a fraction in quotes such as "1/3"')
    return int(parts[1]) / int(parts[2])


_SHARE_SCHEMA = {
    "anyOf": [
        {"type": "number", "exclusiveMinimum": 0, "maximum": 1},
        {"type": "string", "pattern": f"^{_FRACTION.pattern}$"},
    ]
}
Share = Annotated[
    float, BeforeValidator(_part), Field(strict=True, gt=0, le=1), WithJsonSchema(_SHARE_SCHEMA)
]


class HoleLimits(Piece):
    """What a pack asks of holes in joists; what it does not state is not asked for.

    Attributes
    ----------
    diameter : float
        Largest, as a share of the joist's depth.
    start, to : float or None
        Where the centre may lie, as shares of the span from either support; ``from`` in a file.
    off_centre : float or None
        How far the centre may lie off the centre line [mm].
    edge : float or None
        Least timber between the hole and the joist's top and bottom [mm].
    spacing : float or None
        Least distance of two holes, centre to centre, in diameters of the larger one.
    clear_of_holes : float or None
        Least distance of two holes, edge to edge [mm].
    """

    diameter: Share
    start: Annotated[Share | None, Field(alias="from")] = None
    to: Share | None = None
    off_centre: Length | None = None
    edge: Size | None = None
    spacing: Size | None = None
    clear_of_holes: Length | None = None


class NotchLimits(Piece):
    """What a pack asks of notches in joists; what it does not state is not asked for.

    Attributes
    ----------
    depth, end_depth : float, float or None
        Deepest, as a share of the joist's depth; `end_depth` for one that begins at a support.
    length : float or None
        Longest, as a share of the joist's depth.
    start, to : float or None
        Where all of it may lie, as shares of the span from either support; ``from`` in a file.
    edges : tuple of str
        Edges that may be notched.
    clear_of_holes : float or None
        Least distance from any hole, edge to edge [mm].
    """

    depth: Share
    end_depth: Share | None = None
    length: Share | None = None
    start: Annotated[Share | None, Field(alias="from")] = None
    to: Share | None = None
    edges: Annotated[tuple[Literal["top", "bottom"], ...], Field(min_length=1)]
    clear_of_holes: Length | None = None


class JoistKind(Piece):
    """A kind of member, whether it may be cut by rule, and who decides where it may not."""

    words: str
    may_be_cut: Flag = False
    who_decides: str


class JoistLimits(Piece):
    """The electrician's cover [mm] and the builder's limits on cutting.

    Attributes
    ----------
    cover, cover_clause : float, str
        Least timber between a hole and the edges of a joist, and where that is written.
    clause : str
        Where the limits on cutting are written.
    deepest : float or None
        The deepest joist they hold for [mm].
    gaps : str
        How clear distances are measured: ``along-span``, or ``shortest`` in any direction.
    run_cover, run_clause : float or None, str or None
        The same for a cable along a joist; by default `cover` and `cover_clause`.
    """

    cover: Size
    cover_clause: str
    clause: str
    deepest: Size | None = None
    gaps: Literal["along-span", "shortest"] = "along-span"
    run_cover: Size | None = None
    run_clause: str | None = None
    kinds: dict[str, JoistKind]
    hole: HoleLimits
    notch: NotchLimits


class StudShares(Piece):
    """Largest hole and deepest notch, as shares of the stud's depth."""

    hole: Share
    notch: Share


class StudLimits(Piece):
    """The electrician's cover [mm] and the builder's limits on cutting studs.

    Attributes
    ----------
    cover, cover_clause : float, str
        Least timber between a hole and the stud's edges, and where that is written.
    clause : str
        Where the limits on cutting are written.
    edge : float or None
        Least timber between a hole and the edges that the stud's strength asks for [mm].
    clear_of_notches : float or None
        Least distance of a hole and a notch along the stud, edge to edge [mm].
    bearing, other : StudShares
        For studs that bear load, and for others.
    """

    cover: Size
    cover_clause: str
    clause: str
    edge: Size | None = None
    clear_of_notches: Length | None = None
    bearing: StudShares
    other: StudShares
