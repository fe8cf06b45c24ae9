"""The findings that FACTS 5 and the text ask for on walls in Germany, worked out plainly from a raw case."""

from __future__ import annotations

import numpy as np

from tests.oracle.facts import Expected, Item, at_most, depths, legs_of, wall_of
from tests.oracle.levels import level_sheet
from tests.oracle.plainly import Question, failed, in_wall, joined_up, on_wall, stretches
from tests.oracle.timber import has_wall
from tests.oracle.walk import TOLERANCE, Face, Leg

__all__ = ["expected"]

DEEPEST = 60.0
"""Up to 6 cm deep, six included, a cable lies in the zones or fails (grade P)."""

WIDEST_CABLE = 20.0


def expected(case: Item, shift: float = 0.0) -> list[Expected]:
    """Work out every finding of a case; `shift` is added to the distance that counts as outside [mm]."""
    external = case.get("readings", {}).get("external_corners", "no") == "yes"
    found = [e for route in case["routes"] for e in _route(case, route, shift, external=external)]
    return found + [_fixing(wall_of(case, f["wall"]), f) for f in case.get("fixings", [])]


def _route(case: Item, route: Item, shift: float, *, external: bool) -> list[Expected]:
    wall = wall_of(case, route["wall"])
    judged = [i for i, leg in enumerate(legs_of(route)) if leg.length > TOLERANCE]
    question = Question(wall, route, {}, judged, shift)
    found = [e for face in ("front", "rear") for e in _zone(question, face, external=external)]
    found.append(joined_up(wall, route))
    for i in judged:
        found += [on_wall(wall, route, i), in_wall(wall, route, i), _line(wall, route, i)]
    return found


def _concerned(wall: Item, route: Item, face: str, leg: int) -> bool:
    return at_most(depths(wall, route, leg)[face], DEEPEST)


def _zone(question: Question, face: str, *, external: bool) -> list[Expected]:
    wall, route = question.wall, question.route
    concerned = [i for i in question.judged if _concerned(wall, route, face, i)]
    if not concerned:
        return [Expected("wall-zone", route["id"], "not-applicable", face)]
    passed = [Expected("wall-zone", route["id"], "pass", face)]
    if route.get("supply", "lv") != "lv":
        return passed
    ground = Face(level_sheet(wall, face, external, route.get("joins", [])), centre_line=False)
    return [failed(ground, route, face, s) for s in stretches(ground, question, concerned)] or passed


def _line(wall: Item, route: Item, leg: int) -> Expected:
    """Level or upright where it is concerned; a covering or a low voltage makes no slant straight."""
    if not any(_concerned(wall, route, face, leg) for face in ("front", "rear")):
        return Expected("wall-line", route["id"], "not-applicable", legs=(leg + 1,))
    straight = _straight(legs_of(route)[leg])
    return Expected("wall-line", route["id"], "pass" if straight else "fail", legs=(leg + 1,))


def _straight(leg: Leg) -> bool:
    return any(at_most(abs(leg.start[k] - leg.stop[k]), 0) for k in (0, 1))


def _fixing(wall: Item, fixing: Item) -> Expected:
    """Fear every device's stub, every corner, and a lock on either side of a door that tells of none."""
    everything = [a["id"] for a in wall["accessories"]]
    ground = Face(level_sheet(wall, fixing["face"], True, everything, feared=True), centre_line=False)
    gap = float(ground.zone.distance(np.array([[fixing["x"], fixing["y"]]]))[0])
    status = "caution" if at_most(DEEPEST, fixing["penetration"]) else "pass"
    clear = at_most(fixing["diameter"] / 2 + WIDEST_CABLE / 2, gap)
    if not clear or not has_wall(wall, fixing["x"], fixing["y"]):
        status = "fail"
    return Expected("fixing", fixing["id"], status, fixing["face"])
