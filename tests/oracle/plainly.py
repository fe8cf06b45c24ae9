"""The findings that the text asks for on walls, worked out plainly from a raw case."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.oracle.facts import (
    Expected,
    Item,
    at_most,
    case_readings,
    covered,
    depths,
    face_sheet,
    legs_of,
    rcd_counts,
    roof,
    section,
    wall_of,
)
from tests.oracle.sheet import Ground, Sheet
from tests.oracle.timber import judge_fixing, judge_joist
from tests.oracle.walk import TOLERANCE, Face, Leg

__all__ = [
    "MEASURED",
    "Question",
    "chase",
    "expected",
    "failed",
    "gap",
    "in_wall",
    "joined_up",
    "metal_wall",
    "on_wall",
    "stretches",
    "wall_rcd",
    "wall_zone",
]

MEASURED = 0.01
"""How near `measured` of a `wall-zone` fail is promised to be, under every reading [mm]."""

FACES = ("front", "rear")
METAL = "metal-stud"


@dataclass(frozen=True)
class Question:
    """A route on its wall, the readings, the legs that have a length, and a shift of the limit [mm]."""

    wall: Item
    route: Item
    reading: dict[str, str]
    judged: list[int]
    shift: float


@dataclass(frozen=True)
class Piece:
    """A part of a stretch on one leg, as places on that leg and along the route [mm]."""

    leg: int
    local: tuple[float, float]
    along: tuple[float, float]


def expected(case: Item, shift: float = 0.0) -> list[Expected]:
    """Work out every finding of a case.

    Parameters
    ----------
    case : dict
        The case as TOML or JSON data.
    shift : float, optional
        Added to the distance at which a point counts as outside [mm].

    Returns
    -------
    list of Expected
        In no order that matters.
    """
    found: list[Expected] = []
    for route in case.get("routes", []):
        found += _route(case, route, shift)
    for joist in case.get("joists", []):
        found += judge_joist(joist)
    return found + [judge_fixing(wall_of(case, f["wall"]), f) for f in case.get("fixings", [])]


def _route(case: Item, route: Item, shift: float) -> list[Expected]:
    wall = wall_of(case, route["wall"])
    judged = [i for i, leg in enumerate(legs_of(route)) if leg.length > TOLERANCE]
    question = Question(wall, route, case_readings(case), judged, shift)
    found = [finding for face in FACES for finding in wall_zone(question, face)]
    found.append(wall_rcd(wall, route, judged))
    found.append(metal_wall(wall, route, judged))
    found.append(joined_up(wall, route))
    for i in judged:
        found += [on_wall(wall, route, i), in_wall(wall, route, i), *chase(wall, route, i)]
    return found


def _concerned(wall: Item, route: Item, face: str, leg: int) -> bool:
    return depths(wall, route, leg)[face] < 50 - TOLERANCE


def wall_zone(question: Question, face: str, sheet: Ground | None = None) -> list[Expected]:
    """Tell where the cable is outside on a face; of a room's wall, the sheet is given."""
    wall, route, reading = question.wall, question.route, question.reading
    concerned = [i for i in question.judged if _concerned(wall, route, face, i)]
    if not concerned:
        return [Expected("wall-zone", route["id"], "not-applicable", face)]
    bare = [i for i in concerned if not covered(route, i)]
    if not bare or (reading["rcd_outside_zone"] == "yes" and rcd_counts(route)):
        return [Expected("wall-zone", route["id"], "pass", face)]
    sheet = sheet or face_sheet(wall, face, reading, route.get("joins", []))
    ground = Face(sheet, centre_line=reading["width_inside"] == "centre-line")
    fails = [failed(ground, route, face, s) for s in stretches(ground, question, bare)]
    return fails or [Expected("wall-zone", route["id"], "pass", face)]


def stretches(ground: Face, question: Question, bare: list[int]) -> list[list[Piece]]:
    """Unbroken stretches outside, each as its pieces leg by leg."""
    legs, before = legs_of(question.route), 0.0
    found: list[list[Piece]] = []
    for i in question.judged:
        leg, width = legs[i], section(question.route, i)[0]
        runs = ground.stretches(leg, width, question.shift) if i in bare else []
        for a, b in runs:
            piece = Piece(i, (a, b), (before + a, before + b))
            if found and piece.along[0] - found[-1][-1].along[1] < 1e-6:
                found[-1].append(piece)
            else:
                found.append([piece])
        before += leg.length
    return found


def failed(ground: Face, route: Item, face: str, stretch: list[Piece]) -> Expected:
    """Put a stretch into a finding."""
    ends = (stretch[0].along[0], stretch[-1].along[1])
    legs = tuple(sorted({piece.leg + 1 for piece in stretch}))
    measured = max(_worst(ground, route, piece) for piece in stretch)
    return Expected("wall-zone", route["id"], "fail", face, legs, ends, measured, 0.0)


def _worst(ground: Face, route: Item, piece: Piece) -> float:
    leg, half = legs_of(route)[piece.leg], section(route, piece.leg)[0] / 2
    away = ground.farthest(leg, *piece.local)
    return away + half if away > 1e-6 else half - ground.nearest(leg, *piece.local)


def wall_rcd(wall: Item, route: Item, judged: list[int]) -> Expected:
    """Tell whether a shallow bare leg has its RCD."""
    needy = [i for i in judged if any(_concerned(wall, route, f, i) for f in FACES) and not covered(route, i)]
    if not needy:
        return Expected("wall-rcd", route["id"], "not-applicable")
    return Expected("wall-rcd", route["id"], "pass" if rcd_counts(route) else "fail")


def metal_wall(wall: Item, route: Item, judged: list[int]) -> Expected:
    """Tell whether metal in the wall is answered by an RCD or a covering."""
    if wall["build"] != METAL or not judged:
        return Expected("metal-wall", route["id"], "not-applicable")
    good = rcd_counts(route) or all(covered(route, i) for i in judged)
    return Expected("metal-wall", route["id"], "pass" if good else "fail")


def joined_up(wall: Item, route: Item) -> Expected:
    """Tell whether the route touches all that it joins on its wall."""
    here = [a for a in wall.get("accessories", []) if a["id"] in route.get("joins", [])]
    if not here:
        return Expected("route-joins", route["id"], "not-applicable")
    reached = all(at_most(min(gap(leg, a) for leg in legs_of(route)), 0) for a in here)
    return Expected("route-joins", route["id"], "pass" if reached else "fail")


def gap(leg: Leg, accessory: Item) -> float:
    """Return the distance from a leg to a rectangle: nought where they meet [mm]."""
    half = np.array([accessory["width"] / 2, accessory["height"] / 2])
    a, b = (np.array(p) - [accessory["x"], accessory["y"]] for p in (leg.start, leg.stop))
    if _inner_length(a, b, half) is not None:
        return 0.0
    gaps = [float(np.hypot(*np.maximum(np.abs(p) - half, 0))) for p in (a, b)]
    run = b - a
    for corner in ([1, 1], [1, -1], [-1, 1], [-1, -1]):
        to = np.array(corner) * half - a
        share = np.clip(to @ run / (run @ run), 0, 1) if leg.length else 0.0
        gaps.append(float(np.hypot(*(to - share * run))))
    return min(gaps)


def _inner_length(a: np.ndarray, b: np.ndarray, half: np.ndarray) -> float | None:
    """Length of a piece within a rectangle about the origin, None where it misses it [mm]."""
    low, high = 0.0, 1.0
    for k in (0, 1):
        run = b[k] - a[k]
        if run == 0:
            if abs(a[k]) > half[k]:
                return None
            continue
        ends = sorted(((-half[k] - a[k]) / run, (half[k] - a[k]) / run))
        low, high = max(low, ends[0]), min(high, ends[1])
    return None if low > high else float((high - low) * np.hypot(*(b - a)))


def on_wall(wall: Item, route: Item, leg: int) -> Expected:
    """Tell whether a leg lies on the wall and in no opening."""
    line, top = legs_of(route)[leg], roof(wall)
    sheet = Sheet(wall["length"], top, (), (), (), cut=True, floor=top)
    (x0, y0), (x1, y1) = line.start, line.stop
    bends = [(x, y0 + (y1 - y0) * (x - x0) / (x1 - x0)) for x, _ in top if min(x0, x1) < x < max(x0, x1)]
    good = all(sheet.on_wall(x, y, TOLERANCE) for x, y in [line.start, line.stop, *bends])
    good = good and not any(_crosses(line, o) for o in wall.get("openings", []))
    return Expected("route-on-wall", route["id"], "pass" if good else "fail", legs=(leg + 1,))


def _crosses(leg: Leg, opening: Item) -> bool:
    size = np.array([opening["width"], opening["height"]]) / 2
    middle = np.array([opening["x"], opening["y"]]) + size
    inner = _inner_length(np.array(leg.start) - middle, np.array(leg.stop) - middle, size - TOLERANCE)
    return inner is not None and inner > TOLERANCE


def in_wall(wall: Item, route: Item, leg: int) -> Expected:
    """Tell whether a leg lies within the wall's thickness."""
    least = min(depths(wall, route, leg).values())
    status = "pass" if at_most(0, least) else "fail"
    return Expected("depth-in-wall", route["id"], status, legs=(leg + 1,))


def chase(wall: Item, route: Item, leg: int) -> list[Expected]:
    """Tell how deep a leg is cut, and whether level or upright."""

    def found(
        line: str, depth: str, measured: float | None = None, limit: float | None = None
    ) -> list[Expected]:
        where = (leg + 1,)
        return [
            Expected("chase-line", route["id"], line, legs=where),
            Expected("chase-depth", route["id"], depth, legs=where, measured=measured, limit=limit),
        ]

    cut = _cut(wall, route, leg)
    if wall["build"] != "masonry" or at_most(cut, 0):
        return found("not-applicable", "not-applicable")
    line = legs_of(route)[leg]
    level, upright = (at_most(abs(line.start[k] - line.stop[k]), 0) for k in (1, 0))
    if not level and not upright:
        return found("fail", "not-applicable")
    limit = _leaf(wall) / (6 if level else 3)
    return found("pass", "pass" if at_most(cut, limit) else "fail", cut, limit)


def _finish(wall: Item, face: str) -> float:
    return float(wall.get(face, {}).get("finish", 13))


def _leaf(wall: Item) -> float:
    return float(wall.get("leaf", wall["thickness"] - sum(_finish(wall, face) for face in FACES)))


def _cut(wall: Item, route: Item, leg: int) -> float:
    """How deep a leg is cut into the masonry [mm]."""
    depth = depths(wall, route, leg)
    near = min(depth.values())
    thinnest = min(_finish(wall, face) for face in FACES if at_most(depth[face], near))
    return near - thinnest + section(route, leg)[1]
