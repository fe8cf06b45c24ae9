"""Faults of names: ids used twice, and walls, rooms and accessories that are not there."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

from zonelib.site.crosscheck_rooms import wall_ids
from zonelib.site.faults import Fault, key_path, nearest
from zonelib.site.raw import Entry, entries, ids

__all__ = ["name_faults"]

_KINDS = (
    (("walls",), ("rooms", "#")),
    (("rooms",),),
    (("walls", "openings"), ("rooms", "walls", "openings")),
    (("walls", "accessories"), ("rooms", "walls", "accessories")),
    (("routes",),),
    (("joists",),),
    (("joists", "holes"),),
    (("joists", "notches"),),
    (("fixings",),),
)
"""Where each kind of thing stands; ``#`` is the walls of a room's plan."""


def name_faults(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield ids used twice, and names of things the file does not have."""
    yield from _twice(data)
    yield from _unknown_places(data)
    yield from _unknown_joins(data)


def _all(data: dict[str, Any], keys: Iterable[str]) -> list[Entry]:
    """Return every entry at a path of lists."""
    holders: list[Entry] = [(0, data)]
    for key in keys:
        holders = [inner for _, holder in holders for inner in entries(holder, key)]
    return holders


def _names(data: dict[str, Any], keys: tuple[str, ...]) -> list[str]:
    return wall_ids(data) if keys[-1] == "#" else ids(_all(data, keys))


def _twice(data: dict[str, Any]) -> Iterator[Fault]:
    for places in _KINDS:
        found = Counter(name for keys in places for name in _names(data, keys))
        for identity in sorted(one for one, times in found.items() if times > 1):
            path, things = ".".join((*places[0], "id")), places[0][-1]
            yield Fault(path, f'"{identity}" more than once', f"one id for each of the {things}")


def _unknown_places(data: dict[str, Any]) -> Iterator[Fault]:
    known = {"wall": [*ids(entries(data, "walls")), *wall_ids(data)], "room": ids(entries(data, "rooms"))}
    for position, route in entries(data, "routes"):
        named = [key for key in ("wall", "room") if route.get(key) is not None]
        if len(named) != 1:
            found = "both wall and room" if named else "neither wall nor room"
            yield Fault(key_path(data, ("routes", position)), found, "one of wall and room")
    for group, key in (("routes", "wall"), ("routes", "room"), ("fixings", "wall")):
        for position, entry in entries(data, group):
            name = entry.get(key)
            if isinstance(name, str) and name not in known[key]:
                path = key_path(data, (group, position, key))
                yield Fault(path, f'"{name}"', _choice(known[key], name, f"{key}s"))


def _unknown_joins(data: dict[str, Any]) -> Iterator[Fault]:
    paths = (("walls", "accessories"), ("rooms", "walls", "accessories"))
    known = list(dict.fromkeys(name for keys in paths for name in _names(data, keys)))
    for position, route in entries(data, "routes"):
        joins = route.get("joins")
        for name in joins if isinstance(joins, list) else ():
            if isinstance(name, str) and name not in known:
                path = key_path(data, ("routes", position, "joins"))
                yield Fault(path, f'"{name}"', _choice(known, name, "accessories"))


def _choice(known: list[str], found: str, things: str) -> str:
    return ", ".join(known) + nearest(found, known) if known else f"nothing, the file has no {things}"
