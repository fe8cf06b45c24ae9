"""Two-way caution: whoever drills where a fixing passes, under 50 mm, meets no cable that any rule permits.

Both views come from one text (DESIGN 5) and are opposites: who lays a cable takes the narrowest view of
where it may go, who drills the widest view of where one may be. So no choice of readings may let the two
meet, but for `rcd_outside_zone`, which permits a cable anywhere.
"""

import math
from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tests.rules.cases import Data
from tests.rules.drawing import LENGTH, walls
from zonelib import Case, judge, load_pack
from zonelib.site.load import case_from_data
from zonelib.site.model import Route, Side, Wall
from zonelib.site.tolerance import TOLERANCE

MANY = settings(max_examples=80, suppress_health_check=[HealthCheck.filter_too_much])
OTHER = {"front": "rear", "rear": "front"}
DE_KINDS = {"blank-plate": "data-outlet", "pipe": "radiator"}
PERMITS = {"wall-zone", "wall-line", "wall-rcd", "metal-wall", "route-on-wall", "depth-in-wall"}
"""What permits a cable where it lies; whether it reaches its plate is not asked, nor how deep it is cut."""


@st.composite
def readings(draw: st.DrawFn, pack: str) -> dict[str, str]:
    known = load_pack(pack).readings
    return {
        name: draw(st.sampled_from(one.values)) for name, one in known.items() if name != "rcd_outside_zone"
    }


@st.composite
def places(draw: st.DrawFn, wall: Data, half: float) -> tuple[float, float]:
    """Draw a point where a zone may well end: a strip's edge, a corner's, the top's, a window's side."""
    xs, ys = [half, LENGTH - half], [1300.0, 300.0, 150 + half, 450 - half]
    for one in wall["accessories"]:
        xs += [one["x"] + way * (one["width"] / 2 - half) for way in (-1, 0, 1)]
        ys += [one["y"] + way * (one["height"] / 2 - half) for way in (-1, 0, 1)]
    for key, side in (("internal_corners", "front"), ("external_corners", "rear")):
        xs += [x + way * (150 - half) for x in wall[side][key] for way in (-1, 1)]
    for one in wall["openings"]:
        xs += [one["x"] - 100 - half, one["x"] + one["width"] + 300 - half]
    ys += [y - drop for _, y in wall["top"] for drop in (150 - half, 450 - half, 300)]
    return draw(st.sampled_from(xs)), draw(st.sampled_from(ys))


@st.composite
def routes(draw: st.DrawFn, wall: Data, face: str) -> Data:
    """Draw a cable of one or two legs near to a face, most often from a plate it joins."""
    width, thickness = draw(st.sampled_from([(10.3, 6.0), (8.2, 5.0), (20.0, 10.0)]))
    plate = draw(st.sampled_from([*wall["accessories"], None]))
    points = [draw(places({**wall, "accessories": [plate]} if plate else wall, width / 2))]
    if plate:
        points = [(plate["x"], points[0][1]) if draw(st.booleans()) else (points[0][0], plate["y"])]
    for upright in draw(st.sampled_from([[True], [False], [True, False], [False, True]])):
        x, y = draw(places(wall, width / 2))
        points.append((points[-1][0], y) if upright else (x, points[-1][1]))
    return {"id": "R1", "wall": "W1", "joins": [plate["id"]] if plate else [], "rcd": {"ma": 30},
            **draw(depths(wall["thickness"] - thickness, face)),
            "points": [list(point) for point in points],
            "cable": {"width": width, "thickness": thickness}}  # fmt: skip


@st.composite
def depths(draw: st.DrawFn, room: float, face: str) -> Data:
    """Draw how deep a cable lies below a face, told from that face or from the other one."""
    near = draw(st.sampled_from([5.0, 20.0, 30.0, 48.0]))
    told = draw(st.booleans()) or room - near < 0
    return {"depth": near, "depth_from": face} if told else {"depth": room - near, "depth_from": OTHER[face]}


@st.composite
def fixings(draw: st.DrawFn, wall: Data, route: Data, face: str) -> Data:
    """Draw a fixing that comes in at a cable's edge somewhere along it, from the face it lies near."""
    behind = wall["thickness"] - route["depth"] - route["cable"]["thickness"]
    covers = {route["depth_from"]: route["depth"], OTHER[route["depth_from"]]: behind}
    diameter = draw(st.sampled_from([3.0, 5.0, 8.0, 12.0]))
    leg = draw(st.integers(0, len(route["points"]) - 2))
    (x0, y0), (x1, y1) = route["points"][leg : leg + 2]
    share, turn = draw(st.integers(0, 20)) / 20, draw(st.integers(0, 15)) * math.pi / 8
    off = (diameter + route["cable"]["width"]) / 2 * draw(st.sampled_from([0.0, 0.9, 0.99]))
    x, y = x0 + share * (x1 - x0) + off * math.cos(turn), y0 + share * (y1 - y0) + off * math.sin(turn)
    penetration = draw(st.sampled_from([max(covers[face], 0.0) + 0.5, 49.99]))
    return {"id": "F1", "wall": "W1", "face": face, "x": x, "y": y, "penetration": penetration,
            "diameter": diameter}  # fmt: skip


@st.composite
def meetings(draw: st.DrawFn, pack: str, face: str) -> Data:
    wall = draw(walls())
    if pack == "de":
        for one in wall["accessories"]:
            one["kind"] = DE_KINDS.get(one["kind"], one["kind"])
            one["y"] = draw(st.sampled_from([one["y"], 750.0, 1150.0]))
        for one in wall["openings"]:
            one |= {"kind": "door", "lock_side": draw(st.sampled_from(["left", "both"]))}
    route = draw(routes(wall, face))
    return {"pack": pack, "walls": [wall], "readings": draw(readings(pack)), "routes": [route],
            "fixings": [draw(fixings(wall, route, face))]}  # fmt: skip


def built(data: Data) -> Case:
    return case_from_data(data, load_pack(data["pack"]).vocabulary)


def verdicts(case: Case) -> tuple[bool, str]:
    """Return whether the rules permit the cable where it lies, and what becomes of the fixing."""
    found = judge(case).findings
    permitted = not any(one.status == "fail" for one in found if one.subject == "R1" and one.rule in PERMITS)
    return permitted, next(str(one.status) for one in found if one.subject == "F1")


def meets(case: Case) -> bool:
    """Tell whether the drill's cylinder comes into the cable, by plain arithmetic on both."""
    (wall,), (route,), (fixing,) = case.walls, case.routes, case.fixings
    reach = (fixing.diameter + route.cable.width) / 2 - 0.01
    # A leg of no length is no cable, and is not judged.
    legs = [ends for ends in pairwise(route.points) if math.dist(*ends) > TOLERANCE]
    near = any(_gap((fixing.x, fixing.y), *ends) < reach for ends in legs)
    return near and _cover(wall, route, fixing.face) < fixing.penetration


def _cover(wall: Wall, route: Route, face: Side) -> float:
    near = route.depth[0]
    return near if face == route.depth_from else wall.thickness - near - route.cable.thickness


def _gap(point: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    """Return the distance of a point from a straight piece [mm]."""
    run, rise = end[0] - start[0], end[1] - start[1]
    share = ((point[0] - start[0]) * run + (point[1] - start[1]) * rise) / (run**2 + rise**2)
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (start[0] + share * run, start[1] + share * rise))


@pytest.mark.parametrize("face", ["front", "rear"])
@pytest.mark.parametrize("pack", ["uk", "de"])
def test_a_fixing_that_passes_touches_no_cable_that_any_readings_permit(pack: str, face: str) -> None:
    met: Counter[bool] = Counter()

    @MANY
    @given(meetings(pack, face))
    def holds(data: Data) -> None:
        case = built(data)
        assume(meets(case))
        permitted, fixing = verdicts(case)
        met[permitted] += 1
        assert not (permitted and fixing == "pass"), data

    holds()
    assert met[True], met


def reaching(**changes: Any) -> Data:
    wall = {"id": "W1", "length": LENGTH, "height": 2400, "thickness": 100, "build": "timber-stud"}
    route = {"id": "R1", "wall": "W1", "points": [[500, 1200], [900, 1200]], "depth": 20, "rcd": {"ma": 30},
             "cable": {"width": 10, "thickness": 6}, **changes}  # fmt: skip
    fixing = {
        "id": "F1",
        "wall": "W1",
        "face": "front",
        "x": 700,
        "y": 1207.4,
        "penetration": 30,
        "diameter": 5,
    }
    return {"pack": "uk", "walls": [wall], "routes": [route], "fixings": [fixing]}


def test_what_meets_what_is_plain_arithmetic() -> None:
    # Half of 5 and half of 10 make 7.5; 30 reaches past 20 and not 30; from the rear 100 - 60 - 6 = 34.
    assert meets(built(reaching()))
    assert not meets(built(reaching(points=[[500, 1199.8], [900, 1199.8]])))
    assert not meets(built(reaching(depth=30)))
    assert not meets(built(reaching(depth=60, depth_from="rear")))
    assert meets(built(reaching(depth=65, depth_from="rear")))


def test_an_rcd_in_place_of_a_zone_is_the_one_reading_that_lets_them_meet() -> None:
    case = built({**reaching(), "readings": {"rcd_outside_zone": "yes"}})
    assert meets(case)
    assert verdicts(case) == (True, "pass")
