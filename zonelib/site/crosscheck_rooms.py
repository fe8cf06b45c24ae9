"""Faults of rooms that no single value shows, and their own walls as data to be checked like any other."""

import math
from collections import Counter
from collections.abc import Iterator
from typing import Any

from zonelib.site.faults import Fault, Loc, key_path
from zonelib.site.plan import edges, plan_flaw
from zonelib.site.raw import Entry, Profile, entries, points
from zonelib.site.tolerance import above, below, same

__all__ = ["own_walls", "room_faults", "wall_ids"]

FEWEST = 3
"""A room has at least three walls."""


def wall_ids(data: dict[str, Any]) -> list[str]:
    """Return the ids of the walls that the plans of a file's rooms make."""
    plans = ((room.get("id"), room.get("plan")) for _, room in entries(data, "rooms"))
    return [
        f"{name}.{number}"
        for name, plan in plans
        if isinstance(name, str) and isinstance(plan, list)
        for number in range(1, len(plan) + 1)
    ]


def _plans(data: dict[str, Any]) -> Iterator[tuple[Entry, Profile]]:
    for position, room in entries(data, "rooms"):
        plan = points(room.get("plan"))
        if plan is not None and len(plan) >= FEWEST:
            yield (position, room), plan


def room_faults(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield plans that are no room, and entries for walls that no plan has or that stand twice."""
    for (position, room), plan in _plans(data):
        flaw = plan_flaw(plan)
        if flaw:
            yield Fault(key_path(data, ("rooms", position, "plan")), *flaw)
        yield from _numbers(data, position, room, len(plan))
        yield from _too_far(data, room, sum(math.dist(*edge) for edge in edges(plan)))


def _too_far(data: dict[str, Any], room: dict[str, Any], length: float) -> Iterator[Fault]:
    """Yield routes that go round a room more than once: x may run a whole turn past either end."""
    for position, route in entries(data, "routes"):
        xs = [x for x, _ in points(route.get("points")) or ()] if route.get("room") == room.get("id") else []
        if xs and (below(min(xs), -length) or above(max(xs), 2 * length)):
            found = f"x from {min(xs):g} to {max(xs):g}"
            allowed = f"-{length:g} to {2 * length:g}: {length:g} is once round the room"
            yield Fault(key_path(data, ("routes", position, "points")), found, allowed)


def _numbers(data: dict[str, Any], position: int, room: dict[str, Any], most: int) -> Iterator[Fault]:
    numbers = Counter(
        own["number"] for _, own in entries(room, "walls") if isinstance(own.get("number"), int)
    )
    path = key_path(data, ("rooms", position, "walls"))
    for number, times in sorted(numbers.items()):
        if number > most:
            yield Fault(f"{path}.number", f"{number}", f"1 to {most}, the walls of the plan")
        if times > 1:
            yield Fault(f"{path}.number", f"{number} more than once", "one entry for each wall")


def own_walls(data: dict[str, Any]) -> Iterator[tuple[Loc, dict[str, Any]]]:
    """Yield each wall that has an entry of its own, its length and height filled in from the room."""
    for (position, room), plan in _plans(data):
        for index, own in entries(room, "walls"):
            number = own.get("number")
            if plan_flaw(plan) is None and isinstance(number, int) and 0 < number <= len(plan):
                length = math.dist(*edges(plan)[number - 1])
                yield ("rooms", position, "walls", index), _filled(own, room, length)


def _filled(own: dict[str, Any], room: dict[str, Any], length: float) -> dict[str, Any]:
    """Return a wall as `wall_faults` reads it; a top may miss a slanting wall's length by the tolerance."""
    wall = {**own, "length": length}
    if "height" not in own and "top" not in own:
        wall["height"] = room.get("height")
    top = points(own.get("top"))
    if top is not None and same(top[-1][0], length):
        wall["top"] = [*own["top"][:-1], [length, top[-1][1]]]
    return wall
