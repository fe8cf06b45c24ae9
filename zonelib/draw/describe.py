"""The text alternative of a whole drawing: sentences from the same data as its shapes."""

from collections.abc import Iterator

from zonelib.draw.contents import Contents
from zonelib.draw.words import (
    accessory_alt,
    failure_alt,
    fixing_alt,
    opening_alt,
    route_alt,
    title,
    zone_words,
)
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import mm
from zonelib.site.model import Side, Wall
from zonelib.site.row import Row

__all__ = ["description"]


def description(wall: Wall, side: Side, book: Rulebook, contents: Contents) -> str:
    """Return the text alternative of a whole drawing, from the same data as its shapes."""
    return " ".join(_sentences(wall, side, book, contents))


def _sentences(wall: Wall, side: Side, book: Rulebook, contents: Contents) -> Iterator[str]:
    yield from _size(wall, side)
    if side == "rear":
        yield "It is drawn mirrored, as seen from the rear; every x is measured in the front view."
    yield from map(opening_alt, wall.openings)
    yield from map(accessory_alt, contents.accessories)
    for zone in contents.zones:
        yield f"Zone: {zone_words(zone, book)}, {zone.reason}."
    for source in dict.fromkeys(zone.source for zone in contents.others):
        yield f"{source}'s zone is not for this cable. Expect a cable there all the same."
    yield from map(route_alt, contents.routes)
    yield from map(fixing_alt, contents.fixings)
    yield from map(failure_alt, contents.failed)


def _size(wall: Wall, side: Side) -> Iterator[str]:
    """Yield how large a wall is, or each wall of a room."""
    if not isinstance(wall, Row):
        thick = f"{mm(wall.thickness)} mm thick"
        yield f"{title(wall, side)}: {mm(wall.length)} mm long, {_height(wall)}, {thick}."
        return
    yield f"{title(wall, side)}: {mm(wall.length)} mm once round. Every x is measured along all walls."
    for one, start in wall.placed:
        yield f"Wall {one.id}: from {mm(start)} to {mm(start + one.length)}, {_height(one)}."


def _height(wall: Wall) -> str:
    heights = [y for _, y in wall.profile]
    if max(heights) == min(heights):
        return f"{mm(heights[0])} mm high"
    line = ", ".join(f"{mm(y)} mm at x {mm(x)}" for x, y in wall.profile)
    return f"with a top that is {line}"
