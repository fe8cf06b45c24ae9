"""Faults that lie between two values, found even where other parts of the file are unsound."""

from collections.abc import Iterator
from typing import Any

from zonelib.site.crosscheck_names import name_faults
from zonelib.site.crosscheck_rooms import own_walls, room_faults
from zonelib.site.crosscheck_walls import wall_faults
from zonelib.site.faults import Fault
from zonelib.site.raw import entries
from zonelib.site.timber_check import timber_faults

__all__ = ["crosscheck"]


def crosscheck(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield the faults of a case's data that no single value shows.

    Whatever is itself malformed is passed over here; its own fault is reported elsewhere.
    """
    yield from name_faults(data)
    yield from timber_faults(data)
    yield from room_faults(data)
    for position, wall in entries(data, "walls"):
        yield from wall_faults(data, ("walls", position), wall)
    for loc, wall in own_walls(data):
        yield from wall_faults(data, loc, wall)
