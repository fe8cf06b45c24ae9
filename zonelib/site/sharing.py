"""Walls that two rooms share: the rear of one is the front of the other."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from zonelib.site.faults import Fault
from zonelib.site.plan import Edge, edges
from zonelib.site.room import Behind, Room, RoomWall
from zonelib.site.tolerance import TOLERANCE, above, below, same
from zonelib.site.wall import Accessory, Face, Opening, other_side

__all__ = ["Pair", "fit_faults", "pairs_of", "with_neighbours"]


@dataclass(frozen=True)
class Pair:
    """Two walls that face away from each other, and how they lie.

    Attributes
    ----------
    one, other : RoomWall
        The walls.
    gap : float
        Between their front faces [mm].
    at : float
        Where the left end of either lies on the other: x there is `at` minus x here [mm].
    """

    one: RoomWall
    other: RoomWall
    gap: float
    at: float

    @property
    def shared(self) -> bool:
        """Whether they are one wall."""
        return same(self.gap, self.one.thickness) and same(self.gap, self.other.thickness)

    @property
    def apart(self) -> bool:
        """Whether there is room for both."""
        return not below(self.gap, self.one.thickness + self.other.thickness)


def pairs_of(rooms: Sequence[Room], walls: Iterable[RoomWall]) -> Iterator[Pair]:
    """Yield every two walls of different rooms that lie back to back, with no room for both."""
    placed = {room.id: edges(room.plan) for room in rooms}
    lines = [(wall, placed[wall.room][wall.number - 1]) for wall in walls]
    for (one, line), (other, other_line) in combinations(lines, 2):
        pair = _pair(one, line, other, other_line) if one.room != other.room else None
        if pair and not pair.apart:
            yield pair


def _pair(one: RoomWall, line: Edge, other: RoomWall, other_line: Edge) -> Pair | None:
    """Return two walls as a pair where they run against each other, one behind the other."""
    along, out = _axes(line)
    starts, ends = (_seen(point, line[0], along, out) for point in other_line)
    if abs(starts[1] - ends[1]) > TOLERANCE or ends[0] > starts[0] or starts[1] <= TOLERANCE:
        return None
    overlap = min(one.length, starts[0]) - max(0.0, ends[0])
    return Pair(one, other, starts[1], starts[0]) if overlap > TOLERANCE else None


def _axes(line: Edge) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the direction along a wall, and that out of its room."""
    (x0, y0), (x1, y1) = line
    length = math.dist(*line)
    along = (x1 - x0) / length, (y1 - y0) / length
    return along, (-along[1], along[0])


def _seen(
    point: tuple[float, float], origin: tuple[float, float],
    along: tuple[float, float], out: tuple[float, float],
) -> tuple[float, float]:  # fmt: skip
    """Return a point of the plan as seen from a wall: along it, and behind its front [mm]."""
    dx, dy = point[0] - origin[0], point[1] - origin[1]
    return dx * along[0] + dy * along[1], dx * out[0] + dy * out[1]


def fit_faults(pairs: Sequence[Pair]) -> Iterator[Fault]:
    """Yield what does not fit between two rooms."""
    for pair in pairs:
        if pair.shared:
            yield from _unlike(pair)
        else:
            yield _misfit(pair)
    yield from _hidden_rears(pairs)
    yield from _half_openings(pairs)


def _misfit(pair: Pair) -> Fault:
    one, other = pair.one, pair.other
    allowed = f"{one.thickness:g} for one wall between them, or {one.thickness + other.thickness:g} and more"
    if not same(one.thickness, other.thickness):
        allowed = f"one thickness for both, now {one.thickness:g} and {other.thickness:g}"
    return Fault(f"rooms.{one.room}.plan", f"wall {one.id} with {pair.gap:g} mm to wall {other.id}", allowed)


def _unlike(pair: Pair) -> Iterator[Fault]:
    one, other = pair.one, pair.other
    if one.build != other.build:
        found = f"{one.build}, with {other.build} for {other.id}, the same wall seen from the other room"
        yield Fault(f"walls.{one.id}.build", found, "one build for both")


def _hidden_rears(pairs: Iterable[Pair]) -> Iterator[Fault]:
    """Yield accessories stated on a rear that is the front of another room's wall."""
    for one, other, at in _both_ways(pairs):
        for accessory in one.accessories:
            if accessory.face == "rear" and 0.0 < at - accessory.x < other.length:
                found = f"rear, which is the front of wall {other.id}"
                yield Fault(f"walls.{one.id}.{accessory.id}.face", found, f"front, on wall {other.id}")


def _half_openings(pairs: Iterable[Pair]) -> Iterator[Fault]:
    """Yield openings that lie in a shared wall with one part only."""
    for one, other, at in _both_ways(pairs):
        for opening in one.openings:
            left, right = at - opening.x - opening.width, at - opening.x
            inside = min(right, other.length) - max(left, 0.0)
            if inside > TOLERANCE and below(inside, opening.width):
                found = f"an opening of which {inside:g} mm lie in wall {other.id} of the other room"
                yield Fault(f"walls.{one.id}.{opening.id}", found, "all of it in that wall, or none")


def _both_ways(pairs: Iterable[Pair]) -> Iterator[tuple[RoomWall, RoomWall, float]]:
    for pair in pairs:
        if pair.shared:
            yield pair.one, pair.other, pair.at
            yield pair.other, pair.one, pair.at


def with_neighbours(walls: Sequence[RoomWall], pairs: Sequence[Pair]) -> tuple[RoomWall, ...]:
    """Return the walls, each knowing the openings, accessories and corners that its rear shares."""
    beside: dict[str, list[tuple[RoomWall, float]]] = {wall.id: [] for wall in walls}
    for one, other, at in _both_ways(pairs):
        beside[one.id].append((other, at))
    merged = {wall.id: _merged(wall, beside[wall.id]) for wall in walls}
    return tuple(
        wall.model_copy(
            update={"behind": tuple(Behind(wall=merged[one.id], at=at) for one, at in beside[wall.id])}
        )
        for wall in merged.values()
    )


def _merged(wall: RoomWall, neighbours: Sequence[tuple[RoomWall, float]]) -> RoomWall:
    seen = [_opening(one, at) for other, at in neighbours for one in other.openings]
    felt = [_accessory(one, at) for other, at in neighbours for one in other.accessories]
    return wall.model_copy(
        update={
            "openings": (*wall.openings, *(one for one in seen if 0.0 <= one.x < wall.length)),
            "accessories": (*wall.accessories, *(one for one in felt if 0.0 <= one.x <= wall.length)),
            "rear": _rear(wall, neighbours),
        }
    )


def _opening(opening: Opening, at: float) -> Opening:
    swapped = {"left": "right", "right": "left"}
    lock = swapped.get(opening.lock_side or "", opening.lock_side)
    return opening.model_copy(update={"x": at - opening.x - opening.width, "lock_side": lock})


def _accessory(accessory: Accessory, at: float) -> Accessory:
    return accessory.model_copy(update={"x": at - accessory.x, "face": other_side(accessory.face)})


def _rear(wall: RoomWall, neighbours: Sequence[tuple[RoomWall, float]]) -> Face:
    """Return the rear as the rooms behind make it; its finish is that of the wall that covers most of it."""
    if not neighbours:
        return wall.rear
    widest = max(neighbours, key=lambda pair: min(wall.length, pair[1]) - max(0.0, pair[1] - pair[0].length))
    internal = (at - x for other, at in neighbours for x in other.front.internal_corners)
    external = (at - x for other, at in neighbours for x in other.front.external_corners)
    return wall.rear.model_copy(
        update={
            "finish": widest[0].front.finish,
            "internal_corners": (*wall.rear.internal_corners, *_on(wall, internal)),
            "external_corners": (*wall.rear.external_corners, *_on(wall, external)),
        }
    )


def _on(wall: RoomWall, places: Iterable[float]) -> tuple[float, ...]:
    found = (min(max(x, 0.0), wall.length) for x in places if not _off(x, wall.length))
    return tuple(sorted(set(found)))


def _off(x: float, length: float) -> bool:
    return below(x, 0.0) or above(x, length)
