"""Changes that a misconception makes to pack and case in code: both are data, and are changed in place."""

import math
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

from zonelib.site.tolerance import TOLERANCE

__all__ = ["CHANGES"]

Data = dict[str, Any]

FAR = 1000.0
"""So much thicker a wall is taken where one of its faces is forgotten [mm]."""

WIDER = 100.0
"""How far a strip is thought to reach beyond its accessory on each side [mm]."""

FINISH = 13.0
"""A face's finish where a case does not state it [mm]."""


def _walls(case: Data) -> Iterator[Data]:
    yield from case.get("walls", ())
    for room in case.get("rooms", ()):
        yield from room.get("walls", ())


def no_finish(_: Data, case: Data) -> None:
    """Take the brick for the finished face: the leaf stays as thick as it is."""
    for wall in case.get("walls", ()):
        faces = [wall.setdefault(side, {}) for side in ("front", "rear")]
        finishes = [face.get("finish", FINISH) for face in faces]
        wall.setdefault("leaf", wall["thickness"] - sum(finishes))
        for face in faces:
            face["finish"] = 0.0


def plaster_in_leaf(_: Data, case: Data) -> None:
    """Take the whole wall, plaster and all, for the leaf that is cut."""
    for wall in case.get("walls", ()):
        wall["leaf"] = wall["thickness"]


def one_face(pack: Data, case: Data) -> None:
    """Move the face that a depth is not measured from out of reach."""
    if thin := pack["walls"].get("thin"):
        thin["thickness"] += FAR
    for wall in case.get("walls", ()):
        finishes = (wall.get(side, {}).get("finish", FINISH) for side in ("front", "rear"))
        wall.setdefault("leaf", wall["thickness"] - sum(finishes))
        wall["thickness"] += FAR
    for room in case.get("rooms", ()):
        room["thickness"] += FAR


def both_locks(_: Data, case: Data) -> None:
    """Take both sides of a door for its lock side."""
    for wall in _walls(case):
        for opening in wall.get("openings", ()):
            if opening["kind"] == "door":
                opening["lock_side"] = "both"


def all_locatable(_: Data, case: Data) -> None:
    """Take every accessory for one that can be told from the other face."""
    for wall in _walls(case):
        for one in wall.get("accessories", ()):
            one["locatable_from_reverse"] = True


def wide_strips(_: Data, case: Data) -> None:
    """Take every accessory for a wider one, as far as the wall goes."""
    for wall in case.get("walls", ()):
        top = wall.get("height") or min(y for _, y in wall["top"])
        for one in wall.get("accessories", ()):
            one["width"] = _wider(one["width"], one["x"], wall["length"])
            one["height"] = _wider(one["height"], one["y"], top)


def _wider(size: float, centre: float, whole: float) -> float:
    """Return a wider size that does not reach beyond the wall; under a slope it may be there already [mm]."""
    return max(size, min(size + 2 * WIDER, 2 * centre, 2 * (whole - centre)))


def one_chase(pack: Data, _: Data) -> None:
    """Take the limit of upright chases for all."""
    if chases := pack.get("chases"):
        chases["horizontal"] = chases["vertical"]


def slants_covered(pack: Data, case: Data) -> None:
    """Take given legs on the slant for covered, and their chases for allowed."""
    _cover(pack, case, lambda _, start, end: start[0] != end[0] and start[1] != end[1])


def round_corners(pack: Data, case: Data) -> None:
    """Take given legs level with what they join for covered, on whatever wall of the room they run."""
    heights = {
        one["id"]: (one["y"], one["height"]) for wall in _walls(case) for one in wall.get("accessories", ())
    }

    def level(route: Data, start: list[float], end: list[float]) -> bool:
        half = route["cable"]["width"] / 2
        return (
            "room" in route and math.isclose(start[1], end[1], abs_tol=TOLERANCE)
            and any(abs(start[1] - heights[one][0]) + half <= heights[one][1] / 2
                    for one in route.get("joins", ()) if one in heights)
        )  # fmt: skip

    _cover(pack, case, level)


def _cover(pack: Data, case: Data, which: Callable[[Data, list[float], list[float]], bool]) -> None:
    """Put given legs into a covering that counts and takes no room, as if they needed no zone."""
    counting = [
        name for name, one in pack["protections"].items() if one.get("counts") and not one.get("outer")
    ]
    for route in case.get("routes", ()) if counting else ():
        points = route["points"]
        given = route.get("protection", "none")
        legs = [given] * (len(points) - 1) if isinstance(given, str) else list(given)
        found = [which(route, a, b) for a, b in pairwise(points)]
        covered = [
            counting[0] if hit and old == "none" else old for hit, old in zip(found, legs, strict=True)
        ]
        if covered != legs:
            route["protection"] = covered


CHANGES: dict[str, Callable[[Data, Data], None]] = {
    "no_finish": no_finish,
    "plaster_in_leaf": plaster_in_leaf,
    "one_face": one_face,
    "both_locks": both_locks,
    "all_locatable": all_locatable,
    "wide_strips": wide_strips,
    "one_chase": one_chase,
    "slants_covered": slants_covered,
    "round_corners": round_corners,
}
