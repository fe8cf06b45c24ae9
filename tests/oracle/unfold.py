"""Rooms unfolded by plain arithmetic: each wall's length and corners, and what lies behind it."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from tests.oracle.facts import Item
from tests.oracle.walk import TOLERANCE

__all__ = ["Behind", "Indoors", "Side", "unfold"]

Point = tuple[float, float]
OTHER = {"front": "rear", "rear": "front"}
MIRRORED = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Side:
    """One wall of a room: where its inner face runs in the plan, and the wall as if it stood alone."""

    room: str
    start: Point
    end: Point
    wall: Item

    @property
    def length(self) -> float:
        """Length [mm]."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    def seen(self, point: Point) -> Point:
        """Return a point of the plan as seen from this wall: how far along it, and how far behind it [mm]."""
        run = ((self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length)
        away = (point[0] - self.start[0], point[1] - self.start[1])
        # Clockwise, the room lies to the right of its walls, so that behind is to the left.
        return away[0] * run[0] + away[1] * run[1], away[1] * run[0] - away[0] * run[1]


@dataclass(frozen=True)
class Behind:
    """A wall of another room that is this wall's rear: an x there is `at` minus x here [mm]."""

    other: Side
    at: float

    @property
    def span(self) -> tuple[float, float]:
        """The part of this wall that it lies behind [mm]."""
        return self.at - self.other.length, self.at


@dataclass(frozen=True)
class Indoors:
    """The walls of all rooms, by id, each with all that lies in it, and what lies behind each."""

    sides: dict[str, Side]
    behind: dict[str, list[Behind]]

    def row(self, room: str) -> list[Side]:
        """Return the walls of a room in order."""
        return [side for side in self.sides.values() if side.room == room]


def unfold(case: Item) -> Indoors:
    """Unfold the rooms of a case."""
    bare = {side.wall["id"]: side for room in case["rooms"] for side in _sides(room)}
    behind = {name: _behind(side, bare) for name, side in bare.items()}
    whole = {name: _with_rear(side, behind[name]) for name, side in bare.items()}
    return Indoors(
        whole,
        {name: [Behind(whole[b.other.wall["id"]], b.at) for b in found] for name, found in behind.items()},
    )


def _sides(room: Item) -> list[Side]:
    plan = [tuple(point) for point in room["plan"]]
    own = {one["number"]: one for one in room.get("walls", [])}
    return [_side(room, plan, number, own.get(number, {})) for number in range(1, len(plan) + 1)]


def _side(room: Item, plan: list[Point], number: int, own: Item) -> Side:
    start, end = plan[number - 1], plan[number % len(plan)]
    length = hypot(end[0] - start[0], end[1] - start[1])
    wall: Item = {"id": f"{room['id']}.{number}", "length": length, "openings": [], "accessories": []}
    wall |= {key: room[key] for key in ("height", "thickness", "build", "leaf") if key in room}
    wall |= {key: own[key] for key in own if key not in {"number", "front"}}
    finish = {"finish": room["finish"]} if "finish" in room else {}
    wall["front"] = {**finish, **own.get("front", {}), **_corners(plan, number, length)}
    return Side(room["id"], start, end, wall)


def _corners(plan: list[Point], number: int, length: float) -> Item:
    """Return the corners at a wall's two ends: a right turn is internal, a left turn external."""
    found: dict[str, list[float]] = {"internal_corners": [], "external_corners": []}
    count = len(plan)
    for x, at in ((0.0, number - 1), (length, number)):
        (x0, y0), (x1, y1), (x2, y2) = plan[at - 1], plan[at % count], plan[(at + 1) % count]
        turn = (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)
        if turn:
            found["internal_corners" if turn < 0 else "external_corners"].append(x)
    return found


def _behind(side: Side, sides: dict[str, Side]) -> list[Behind]:
    """Return the walls of other rooms that run the other way, one thickness behind."""
    found = []
    for other in sides.values():
        (left, near), (right, far) = (side.seen(point) for point in (other.end, other.start))
        back = abs(near - side.wall["thickness"]) + abs(far - side.wall["thickness"]) < TOLERANCE
        meets = min(right, side.length) - max(left, 0.0) > TOLERANCE
        if other.room != side.room and back and left < right and meets:
            found.append(Behind(other, right))
    return found


def _with_rear(side: Side, behind: list[Behind]) -> Side:
    """Return a wall with what the rooms behind have in it, seen from here."""
    wall = dict(side.wall)
    for one in behind:
        theirs, mine = one.other.wall, (0.0, side.length)
        wall["openings"] = wall["openings"] + [
            _through(o, one.at)
            for o in theirs["openings"]
            if mine[0] <= one.at - o["x"] - o["width"] < mine[1]
        ]
        wall["accessories"] = wall["accessories"] + [
            {**a, "x": one.at - a["x"], "face": OTHER[a["face"]]}
            for a in theirs["accessories"]
            if mine[0] <= one.at - a["x"] <= mine[1]
        ]
    if behind:
        wall["rear"] = _rear(side, behind)
    return Side(side.room, side.start, side.end, wall)


def _through(opening: Item, at: float) -> Item:
    lock = opening.get("lock_side")
    seen = {**opening, "x": at - opening["x"] - opening["width"]}
    return seen | ({"lock_side": MIRRORED.get(lock, lock)} if lock else {})


def _rear(side: Side, behind: list[Behind]) -> Item:
    """Return the rear: its own corners and those that the rooms behind have on it."""
    rear = dict(side.wall.get("rear", {}))
    for key in ("internal_corners", "external_corners"):
        theirs = [one.at - x for one in behind for x in one.other.wall["front"][key]]
        rear[key] = [*rear.get(key, []), *(x for x in theirs if -TOLERANCE <= x <= side.length + TOLERANCE)]
    widest = max(behind, key=lambda one: min(one.span[1], side.length) - max(one.span[0], 0.0))
    rear["finish"] = widest.other.wall["front"].get("finish", 13)
    return rear
