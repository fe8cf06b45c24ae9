"""What the text says of the ``uk`` pack and of defaults, and a raw case read with them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any, TypeAlias

from tests.oracle.sheet import Box, Line, Sheet, Strip, zone_floor
from tests.oracle.walk import TOLERANCE, Leg

__all__ = [
    "COVERED",
    "NO_ZONE",
    "READINGS",
    "Expected",
    "Item",
    "at_most",
    "case_readings",
    "covered",
    "depths",
    "face_sheet",
    "legs_of",
    "per_leg",
    "rcd_counts",
    "roof",
    "section",
    "wall_of",
]

Item: TypeAlias = dict[str, Any]

COVERED = frozenset(
    {
        "earthed-steel-conduit",
        "earthed-steel-trunking",
        "armoured-cable",
        "earthed-screen-cable",
        "mineral-insulated-cable",
        "steel-plate",
    }
)
"""What meets 522.6.204 (DESIGN 5.6)."""

CONDUIT = {"plastic-conduit": 20.0, "unearthed-steel-conduit": 20.0, "earthed-steel-conduit": 20.0} | {
    "earthed-steel-trunking": 50.0
}
NO_ZONE = frozenset(["buried-box", "radiator", "pipe", "mirror"])
READINGS = {
    "borrow_zones": ("no", "yes"),
    "rcd_outside_zone": ("no", "yes"),
    "external_corners": ("yes", "no"),
    "openings_cut_strips": ("yes", "no"),
    "blank_plates": ("yes", "no"),
    "sloping_top": ("vertical", "perpendicular"),
    "width_inside": ("whole", "centre-line"),
    "joist_cover_to": ("hole-edge", "cable"),
}
"""Values of each reading, the default first (DESIGN 5)."""


@dataclass(frozen=True)
class Expected:
    """A finding that the text asks for.

    `legs`, `ends` and `measured` are None where the text leaves them open; it does not say either which
    of a pair is `subject` and which `other`.
    """

    rule: str
    subject: str
    status: str
    face: str | None = None
    legs: tuple[int, ...] | None = None
    ends: tuple[float, float] | None = None
    measured: float | None = None
    limit: float | None = None
    other: str | None = None
    wall: str | None = None


def at_most(value: float, limit: float) -> bool:
    """Tell whether a value is at most its limit, equal passing."""
    return value <= limit + TOLERANCE


def case_readings(case: Item) -> dict[str, str]:
    """Return all readings of a case."""
    chosen: dict[str, str] = case.get("readings", {})
    return {name: values[0] for name, values in READINGS.items()} | chosen


def wall_of(case: Item, name: str) -> Item:
    """Return the wall of that id."""
    return next(wall for wall in case["walls"] if wall["id"] == name)


def per_leg(value: Any, count: int) -> list[Any]:
    """Spread one value over all legs."""
    return list(value) if isinstance(value, list) else [value] * count


def legs_of(route: Item) -> list[Leg]:
    """Return all legs of a route, those of no length too."""
    return [Leg(tuple(a), tuple(b)) for a, b in pairwise(route["points"])]


def covered(route: Item, leg: int) -> bool:
    """Tell whether a leg needs no zone and no RCD."""
    protection = per_leg(route.get("protection", "none"), len(route["points"]) - 1)[leg]
    return route.get("supply", "lv") != "lv" or protection in COVERED


def section(route: Item, leg: int) -> tuple[float, float]:
    """Width and thickness of what lies in the wall [mm]."""
    protection = per_leg(route.get("protection", "none"), len(route["points"]) - 1)[leg]
    if protection in CONDUIT:
        outer = route.get("outer", CONDUIT[protection])
        return outer, outer
    return route["cable"]["width"], route["cable"]["thickness"]


def depths(wall: Item, route: Item, leg: int) -> dict[str, float]:
    """Depth to each face [mm]."""
    near = per_leg(route["depth"], len(route["points"]) - 1)[leg]
    far = wall["thickness"] - near - section(route, leg)[1]
    return (
        {"front": near, "rear": far}
        if route.get("depth_from", "front") == "front"
        else {"front": far, "rear": near}
    )


def rcd_counts(route: Item) -> bool:
    """Tell whether the route has an RCD that counts."""
    rcd = route.get("rcd")
    if rcd is None:
        return False
    return bool(
        at_most(rcd["ma"], 30) and rcd.get("at", "origin") == "origin" and not rcd.get("delayed", False)
    )


def roof(wall: Item) -> Line:
    """Top line of a wall [mm]."""
    if "top" in wall:
        return tuple((x, y) for x, y in wall["top"])
    return (0.0, wall["height"]), (wall["length"], wall["height"])


def face_sheet(wall: Item, face: str, reading: dict[str, str], joins: list[str]) -> Sheet:
    """Return the face with the zone it gives a route that joins these accessories."""
    corners = list(wall.get(face, {}).get("internal_corners", []))
    if reading["external_corners"] == "yes":
        corners += wall.get(face, {}).get("external_corners", [])
    serving = [a for a in wall.get("accessories", []) if _serves(wall, face, a, reading, joins)]
    return Sheet(
        length=wall["length"],
        top=roof(wall),
        openings=tuple(
            Box(o["x"], o["x"] + o["width"], o["y"], o["y"] + o["height"]) for o in wall.get("openings", [])
        ),
        corners=tuple(corners),
        strips=tuple(Strip(a["x"], a["y"], a["width"], a["height"]) for a in serving),
        cut=reading["openings_cut_strips"] == "yes",
        floor=zone_floor(roof(wall), perpendicular=reading["sloping_top"] == "perpendicular"),
    )


def _serves(wall: Item, face: str, accessory: Item, reading: dict[str, str], joins: list[str]) -> bool:
    kind = accessory["kind"]
    if kind in NO_ZONE or (kind == "blank-plate" and reading["blank_plates"] == "no"):
        return False
    if reading["borrow_zones"] == "no" and accessory["id"] not in joins:
        return False
    thin = at_most(wall["thickness"], 100)
    return bool(accessory["face"] == face or (thin and accessory.get("locatable_from_reverse", False)))
