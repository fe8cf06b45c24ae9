"""Make the walls of rooms from their plans, and find which walls two rooms share."""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from zonelib.site.faults import Fault
from zonelib.site.model import Case
from zonelib.site.plan import corner_at, edges, floor_area
from zonelib.site.room import OwnWall, Room, RoomWall
from zonelib.site.sharing import fit_faults, pairs_of, with_neighbours
from zonelib.site.tolerance import TOLERANCE
from zonelib.site.wall import Face

__all__ = ["room_walls", "with_rooms"]


def with_rooms(case: Case) -> tuple[Case, list[Fault]]:
    """Return a case whose walls include those of its rooms, and the faults of how the rooms lie.

    Parameters
    ----------
    case : Case
        As a file gives it, each plan sound in itself.
    """
    if not case.rooms:
        return case, []
    walls = [wall for room in case.rooms for wall in room_walls(room)]
    pairs = list(pairs_of(case.rooms, walls))
    faults = [*_overlaps(case.rooms), *fit_faults(pairs)]
    if faults:
        return case, faults
    return case.model_copy(update={"walls": (*case.walls, *with_neighbours(walls, pairs))}), []


def room_walls(room: Room) -> tuple[RoomWall, ...]:
    """Return the walls of one room, not knowing of any other."""
    own = {entry.number: entry for entry in room.walls}
    return tuple(
        _wall(room, number, own.get(number, OwnWall(number=number)))
        for number in range(1, len(room.plan) + 1)
    )


def _wall(room: Room, number: int, own: OwnWall) -> RoomWall:
    length = math.dist(*edges(room.plan)[number - 1])
    return RoomWall(
        id=f"{room.id}.{number}", room=room.id, number=number, length=length,
        height=None if own.top else own.height or room.height, top=_fitted(own.top, length),
        thickness=own.thickness or room.thickness, build=own.build or room.build,
        leaf=own.leaf or room.leaf, front=_front(room, number, own, length), rear=own.rear,
        openings=own.openings, accessories=own.accessories,
    )  # fmt: skip


def _fitted(
    top: tuple[tuple[float, float], ...] | None, length: float
) -> tuple[tuple[float, float], ...] | None:
    """Return a top that ends exactly where its wall does: a slanting wall's length is no round number."""
    return (*top[:-1], (length, top[-1][1])) if top else None


def _front(room: Room, number: int, own: OwnWall, length: float) -> Face:
    ends = {0.0: corner_at(room.plan, number - 1), length: corner_at(room.plan, number % len(room.plan))}
    return Face(
        internal_corners=tuple(x for x, corner in ends.items() if corner == "internal"),
        external_corners=tuple(x for x, corner in ends.items() if corner == "external"),
        finish=room.finish if own.front.finish is None else own.front.finish,
        worktop=room.worktop if own.front.worktop is None else own.front.worktop,
    )


def _overlaps(rooms: Sequence[Room]) -> Iterator[Fault]:
    for one, other in combinations(rooms, 2):
        common = floor_area(one.plan).intersection(floor_area(other.plan))
        if common.area > TOLERANCE:
            found = f"a floor that overlaps room {other.id}"
            yield Fault(f"rooms.{one.id}.plan", found, "rooms side by side in one plan, walls between them")
