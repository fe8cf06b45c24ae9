"""Rooms in one line each: a plan, what its walls have, and a route round it."""

from typing import Any

from tests.rules.cases import RCD, Data

SQUARE = [[0, 0], [0, 3000], [4000, 3000], [4000, 0]]
"""Walls of 3, 4, 3 and 4 m: west, north, east and south."""

BEHIND = [[0, 3100], [0, 6000], [2500, 6000], [2500, 3100]]
"""A room north of it: its wall 4 is the rear of the first room's wall 2, from x 0 to 2500."""

BESIDE = [[2600, 3100], [2600, 6000], [4000, 6000], [4000, 3100]]
"""A second room north of it, behind a partition of 100 mm."""


def room(name: str = "A", plan: Any = SQUARE, **changes: Any) -> Data:
    """Return a room of stud walls 100 mm thick and 2400 mm high."""
    usual = {"id": name, "plan": plan, "height": 2400, "thickness": 100, "build": "timber-stud"}
    return {**usual, **changes}


def own(number: int, *accessories: Data, **changes: Any) -> Data:
    """Return what one wall of a room has of its own."""
    return {"number": number, "accessories": list(accessories), **changes}


def round_room(points: Any, **changes: Any) -> Data:
    """Return a route in room A: a cable of 10 by 6 mm, 20 mm deep, with an RCD that counts."""
    cable = {"width": 10, "thickness": 6}
    usual = {"id": "R1", "room": "A", "joins": [], "depth": 20, "rcd": RCD, "cable": cable}
    return {**usual, "points": [list(point) for point in points], **changes}


def case_of(*rooms: Data, routes: Any = (), **rest: Any) -> Data:
    """Return the data of a case."""
    return {"pack": "uk", "rooms": list(rooms), "routes": list(routes), **rest}
