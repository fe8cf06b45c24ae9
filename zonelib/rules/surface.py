"""A wall prepared for judging: its areas and zones, each computed once."""

from collections.abc import Collection
from functools import cached_property, lru_cache
from threading import get_ident

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import Zone, zone_area, zones
from zonelib.site.geometry import face_outline, openings_area, solid_area
from zonelib.site.model import Side, Wall
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Surface", "surface_of"]

SLIVER = 1e-6
"""Gaps narrower than this come from floating point, not from a drawing [mm]."""

MOST = 128
"""So many walls are kept ready: an exercise is answered, and each answer judged, on the same few."""

Key = tuple[Side, frozenset[str]]


class Surface:
    """A wall with what the rules need to know of it.

    Parameters
    ----------
    wall : Wall
        The wall.
    book : Rulebook
        Pack and readings.
    """

    def __init__(self, wall: Wall, book: Rulebook) -> None:
        self.wall, self.book = wall, book
        self._zones: dict[Key, BaseGeometry] = {}
        self._barred: dict[Key, BaseGeometry] = {}

    @cached_property
    def outline(self) -> BaseGeometry:
        """The outline of the face, grown by the tolerance."""
        outline = face_outline(self.wall, grown=TOLERANCE)
        shapely.prepare(outline)
        return outline

    @cached_property
    def openings(self) -> BaseGeometry:
        """The openings, shrunk by the tolerance."""
        shrunk = openings_area(self.wall, grown=-TOLERANCE)
        shapely.prepare(shrunk)
        return shrunk

    @cached_property
    def _solid(self) -> BaseGeometry:
        return solid_area(self.wall)

    def pieces(self, side: Side, joined: Collection[str] | None) -> tuple[Zone, ...]:
        """Return the zones of a face one by one."""
        return zones(self.wall, side, self.book, joined=joined)

    def zone(self, side: Side, joined: Collection[str]) -> BaseGeometry:
        """Return the permitted zone of a face for a cable that joins these accessories."""
        key = side, frozenset(joined)
        if key not in self._zones:
            self._zones[key] = zone_area(self.pieces(side, joined))
        return self._zones[key]

    @property
    def _growth(self) -> float:
        return TOLERANCE if self.book.reading("width_inside") == "centre-line" else SLIVER

    def barred(self, side: Side, joined: Collection[str]) -> BaseGeometry:
        """Return the face without its openings and its zone: where no cable may lie.

        The zone is grown a trifle first, so that edges that meet leave no sliver. Where the centre line
        alone counts, it is grown by the tolerance; where the whole width does, the width spends it.
        """
        key = side, frozenset(joined)
        if key not in self._barred:
            zone = self.zone(side, joined).buffer(self._growth, join_style="mitre")
            self._barred[key] = self._solid.difference(zone)
            shapely.prepare(self._barred[key])
        return self._barred[key]


class _Same:
    """A pack as itself: to compare two would take longer than the work that it saves."""

    def __init__(self, pack: Pack) -> None:
        self.pack = pack

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.pack is other.pack

    def __hash__(self) -> int:
        return id(self.pack)


def surface_of(wall: Wall, book: Rulebook) -> Surface:
    """Return a wall prepared for judging; one that was judged lately is there already."""
    # Each thread has its own, since prepared geometries are not made for several at once.
    chosen = tuple(sorted(book.chosen.items()))
    return _prepared(wall, _Same(book.pack), chosen, widest=book.widest, thread=get_ident())


@lru_cache(MOST)
def _prepared(
    wall: Wall, same: _Same, chosen: tuple[tuple[str, str], ...], *, widest: bool, thread: int
) -> Surface:
    del thread
    return Surface(wall, Rulebook(same.pack, dict(chosen), widest=widest))
