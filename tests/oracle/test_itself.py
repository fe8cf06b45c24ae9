"""The second computation against a third, cruder one: discs of points put to the plain inequalities."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from tests.oracle.draw_cases import draw_case
from tests.oracle.facts import case_readings, face_sheet, wall_of
from tests.oracle.plainly import expected
from tests.oracle.sheet import Sheet, top_at, zone_floor
from tests.oracle.timber import judge_joist
from tests.oracle.walk import Face, Leg

SPOKES = 48
RINGS = 10


def _disc_meets_f(sheet: Sheet, x: float, y: float, radius: float) -> bool:
    """Tell whether any of many points of a disc lies in F, each asked by itself."""
    for ring in range(RINGS + 1):
        for spoke in range(SPOKES):
            turn = 2 * math.pi * spoke / SPOKES
            px, py = x + radius * ring / RINGS * math.cos(turn), y + radius * ring / RINGS * math.sin(turn)
            if sheet.on_wall(px, py) and not sheet.in_opening(px, py) and not sheet.in_zone(px, py):
                return True
    return False


def _first_leg(seed: int) -> tuple[Sheet, Leg]:
    case = draw_case(seed)
    route = case["routes"][0]
    sheet = face_sheet(wall_of(case, route["wall"]), "front", case_readings(case), route.get("joins", []))
    legs = [Leg(tuple(a), tuple(b)) for a, b in pairwise(route["points"])]
    return sheet, max(legs, key=lambda leg: leg.length)


@pytest.mark.parametrize("seed", range(25))
def test_a_disc_of_points_meets_f_exactly_on_the_stretches(seed: int) -> None:
    sheet, leg = _first_leg(seed)
    runs = Face(sheet, centre_line=False).stretches(leg, 30.0)
    for place in np.linspace(0, leg.length, 40)[1:-1]:
        x, y = leg.at(np.array([place]))[0]
        # The disc's points lie at most 2.2 apart: a disc a little smaller tells outside, one a little
        # larger inside.
        if _disc_meets_f(sheet, x, y, 14.9):
            assert any(a <= place <= b for a, b in runs), place
        elif not _disc_meets_f(sheet, x, y, 17.0):
            assert not any(a <= place <= b for a, b in runs), place


@pytest.mark.parametrize(
    "top",
    [
        ((0.0, 2400.0), (1000.0, 1500.0), (2000.0, 2500.0)),
        ((0.0, 1500.0), (1000.0, 2400.0), (2000.0, 1400.0)),
        ((0.0, 2400.0), (900.0, 2400.0), (950.0, 1200.0), (2000.0, 1200.0)),
    ],
    ids=["valley", "gable", "step"],
)
def test_the_perpendicular_band_ends_150_mm_from_the_line(top: tuple[tuple[float, float], ...]) -> None:
    floor = zone_floor(top, perpendicular=True)
    line = np.concatenate([np.linspace(a, b, 20001) for a, b in pairwise(top)])
    for x in np.linspace(0, 2000, 101):
        gap = np.hypot(*(line - [x, top_at(floor, float(x))]).T).min()
        assert gap == pytest.approx(150, abs=0.005)


def test_the_same_seed_gives_the_same_case() -> None:
    assert draw_case(11) == draw_case(11) != draw_case(12)


def test_a_joist_is_judged_as_the_published_table_says() -> None:
    # LABC (T): depth 200, span 4000: holes up to 50 from 1000 to 1600; notches up to 25 from 280 to 1000.
    holes = [
        {"id": "H1", "x": 1000, "y": 100, "diameter": 50},
        {"id": "H2", "x": 1600.1, "y": 100, "diameter": 50.1},
    ]
    notch = {"id": "N1", "x": 300, "length": 40, "depth": 25, "edge": "top"}
    joist = {
        "id": "J1",
        "kind": "solid",
        "depth": 200,
        "width": 47,
        "span": 4000,
        "holes": holes,
        "notches": [notch],
    }
    failed = {(e.rule, e.subject) for e in judge_joist(joist) if e.status == "fail"}
    assert failed == {("joist-hole-size", "H2"), ("joist-hole-position", "H2"), ("joist-cover", "N1")}


@pytest.mark.parametrize(
    ("x", "penetration", "due"),
    # The strip ends at 1273; half of a 5 mm drill and half of a 20 mm cable: 1285.5.
    [
        (1285, 30, "fail"),
        (1285.5, 30, "pass"),
        (1286, 49.9, "pass"),
        (1286, 50, "caution"),
        (1285, 80, "fail"),
    ],
)
def test_a_fixing_keeps_clear_of_the_widened_strip(x: float, penetration: float, due: str) -> None:
    socket = {"id": "S1", "kind": "socket", "face": "rear", "x": 1200, "y": 450, "width": 146, "height": 86}
    wall = {"id": "W1", "length": 3600, "height": 2400, "thickness": 100, "build": "timber-stud"}
    fixing = {
        "id": "F1",
        "wall": "W1",
        "face": "front",
        "x": x,
        "y": 1500,
        "penetration": penetration,
        "diameter": 5,
    }
    case = {"pack": "uk", "walls": [wall | {"accessories": [socket]}], "fixings": [fixing]}
    assert [e.status for e in expected(case)] == [due]
