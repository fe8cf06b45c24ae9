"""From notes to a case: what is sound is drawn, what is not is told with its field."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from zonelib.rules.pack import Pack
from zonelib.sheet.survey.fields import missing
from zonelib.sheet.survey.notes import Notes, Row
from zonelib.sheet.survey.walk import Walk
from zonelib.site.faults import Fault, FileFault
from zonelib.site.load import case_from_data
from zonelib.site.model import Case
from zonelib.site.raw import number, size

__all__ = ["Surveyed", "Told", "case_data", "surveyed", "told_of", "walk_of"]


@dataclass(frozen=True)
class Told:
    """One fault of the case reader, with the field it is about.

    Attributes
    ----------
    group, at, key : str, int, str
        Group of fields, row in it from 0, and field; "" for the whole row.
    name : str
        What the row is called.
    fault : Fault
        What was found, and what is allowed.
    """

    group: str
    at: int
    key: str
    name: str
    fault: Fault

    @property
    def words(self) -> str:
        """The fault without its key path."""
        return f"Found {self.fault.found}. Allowed: {self.fault.allowed}."


@dataclass(frozen=True)
class Surveyed:
    """What the notes come to.

    Attributes
    ----------
    data : dict
        The case file's data.
    case : Case or None
        The room, without what is left out; None where there is no plan yet, or no sound one.
    told : tuple of Told
        The faults.
    left_out : tuple of str
        Names of the things that are not in the case: not measured yet, or at fault.
    """

    data: dict[str, Any]
    case: Case | None
    told: tuple[Told, ...]
    left_out: tuple[str, ...]


def surveyed(notes: Notes, pack: Pack) -> Surveyed:
    """Read the notes as a case; what is at fault is told and left out, and the rest is read again."""
    out = {(group, at) for group in ("openings", "accessories") for at in _unmeasured(notes, group)}
    told: list[Told] = []
    while True:
        data = case_data(notes, out)
        try:
            case = case_from_data(data, pack.vocabulary)
        except FileFault as found:
            new = [told_of(fault, notes) for fault in found.faults if not _awaited(fault, data)]
        else:
            return Surveyed(data, case, tuple(told), _names(notes, out))
        told += [one for one in new if one not in told]
        rows = {(one.group, one.at) for one in new if one.group in ("openings", "accessories")} - out
        if not rows:
            return Surveyed(data, None, tuple(told), _names(notes, out))
        out |= rows


def case_data(notes: Notes, out: set[tuple[str, int]]) -> dict[str, Any]:
    """Return a case file's data; `out` are groups and rows that are left out."""
    room: dict[str, Any] = {"id": notes.name}
    walk = walk_of(notes)
    if walk and (walk.closes or (notes.spread and walk.may_spread)):
        room["plan"] = [list(point) for point in walk.plan()]
    room |= {key: value for key, value in notes.room.items() if value is not None}
    walls = [_wall(notes, at, out, room) for at in range(len(notes.walls))]
    if own := [one for one in walls if len(one) > 1]:
        room["walls"] = own
    return {"pack": notes.pack, "rooms": [room]}


def walk_of(notes: Notes) -> Walk | None:
    """Return the way along the walls, or None where one of them is not measured."""
    lengths = [size(one.get("length")) for one in notes.walls]
    turns = [number(one.get("turn")) for one in notes.walls]
    if not lengths or None in lengths or None in turns:
        return None
    return Walk(tuple(one or 0.0 for one in lengths), tuple(one or 0.0 for one in turns))


def _wall(notes: Notes, at: int, out: set[tuple[str, int]], room: Row) -> Row:
    """Return what one wall has of its own."""
    row = notes.walls[at]
    wall: Row = {"number": at + 1}
    wall |= {key: row[key] for key in ("thickness", "build", "leaf") if row.get(key) is not None}
    if row.get("finish") is not None:
        wall["front"] = {"finish": row["finish"]}
    if any(row.get(key) is not None for key in ("height_left", "height_right", "knee_x", "knee_y")):
        wall["top"] = _top(row, at, room)
    for group, make in (("openings", _opening), ("accessories", _accessory)):
        things = enumerate(notes.rows(group))
        if made := [make(one) for n, one in things if one.get("wall") == at + 1 and (group, n) not in out]:
            wall[group] = made
    return wall


def _top(row: Row, at: int, room: Row) -> list[list[Any]]:
    """Return the line of a sloping top; its length is that of the plan, which may have been spread."""
    plan = room.get("plan")
    length = row.get("length")
    if plan:
        (x, y), (to_x, to_y) = plan[at], plan[(at + 1) % len(plan)]
        length = ((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5
    ends = [
        row[key] if row.get(key) is not None else room.get("height")
        for key in ("height_left", "height_right")
    ]
    knee = [row.get(key) for key in ("knee_x", "knee_y")]
    bend = [["nothing yet" if one is None else one for one in knee]] if knee != [None, None] else []
    return [[0, ends[0]], *bend, [length, ends[1]]]


def _opening(row: Row) -> Row:
    return {key: row[key] for key in ("id", "kind", "x", "y", "width", "height")}


def _accessory(row: Row) -> Row:
    made = {**_opening(row), "face": "rear" if row.get("face") else "front"}
    if row.get("face") and row.get("locatable"):
        made["locatable_from_reverse"] = True
    return {**made, "visible": False} if row.get("hidden") else made


def _unmeasured(notes: Notes, group: str) -> Iterator[int]:
    yield from (at for at, row in enumerate(notes.rows(group)) if missing(group, row))


def _names(notes: Notes, out: set[tuple[str, int]]) -> tuple[str, ...]:
    return tuple(str(notes.rows(group)[at]["id"]) for group, at in sorted(out, reverse=True))


def _awaited(fault: Fault, data: dict[str, Any]) -> bool:
    """Tell whether a fault is only that something is still to be measured, which the form says itself."""
    room = data["rooms"][0]
    return fault.found == "nothing" and fault.path in {
        f"rooms.{room['id']}.{key}" for key in NEEDED if key not in room
    }


NEEDED = ("plan", "height", "thickness", "build")

KEYS = {"top": "height_left", "front": "finish", "visible": "hidden", "locatable_from_reverse": "locatable"}
"""Fields that bear another name than the key of the case file."""


def told_of(fault: Fault, notes: Notes) -> Told:
    """Return a fault with the field of the form it is about."""
    parts = fault.path.removeprefix(f"rooms.{notes.name}").strip(".").split(".")
    match parts:
        case ["walls", wall, ("openings" | "accessories") as group, name, *keys]:
            at = next((n for n, row in enumerate(notes.rows(group)) if row.get("id") == name), 0)
            return Told(group, at, _key(keys), f"{name} on wall {wall}", fault)
        case ["walls", wall, *keys] if wall.isdecimal():
            return Told("own", int(wall) - 1, _key(keys), f"Wall {wall}", fault)
        case ["plan", *_]:
            return Told("walls", 0, "", "The plan", fault)
    return Told("room", 0, _key(parts), "The room", fault)


def _key(parts: list[str]) -> str:
    return KEYS.get(parts[0], parts[0]) if parts else ""
