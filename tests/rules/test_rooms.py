"""Routes round a room: cut at the corners, judged wall by wall, through voids, and behind thin walls."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, box

from tests.rules.cases import accessory, judged, one_route
from tests.rules.rooms import BEHIND, BESIDE, SQUARE, case_of, own, room, round_room
from zonelib import Finding, load_pack
from zonelib.rules.fixing_rules import avoid_region
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import zone_area, zones
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

UK = load_pack("uk")
SEEN = {"locatable_from_reverse": True}
PLAIN = {"internal_corners": [0, 4000]}


def read(data: dict[str, Any]) -> Case:
    return case_from_data(data, UK.vocabulary)


def of(rule: str, data: dict[str, Any]) -> list[Finding]:
    return [finding for finding in judged(data).findings if finding.rule == rule]


def outside(data: dict[str, Any]) -> list[Finding]:
    return [finding for finding in of("wall-zone", data) if finding.status == "fail"]


def test_a_route_on_one_wall_of_a_room_is_judged_as_on_a_wall_alone() -> None:
    """The second way of computing: the same wall written down by hand."""
    socket, points = accessory("S1", 1200, 450), [(1200, 450), (2400, 1500), (2400, 2330)]
    alone = one_route(points, id="W1", length=4000, thickness=100, front=PLAIN, accessories=[socket])
    shifted = [(x + 3000, y) for x, y in points]
    data = case_of(room(walls=[own(2, socket)]), routes=[round_room(shifted, joins=["S1"])])
    one, other = judged(alone).findings, judged(data).findings
    assert [(f.rule, f.status, f.measured, f.where.from_mm, f.where.to_mm) for f in one] == [
        (f.rule, f.status, f.measured, f.where.from_mm, f.where.to_mm) for f in other
    ]


def test_a_strip_does_not_turn_the_corner() -> None:
    """FACTS 1, grade D: a horizontal zone does not turn a corner; past its 150 mm the cable is outside."""
    low = round_room([(3600, 450), (2400, 450)], joins=["S1"])
    data = case_of(room(walls=[own(2, accessory("S1", 600, 450))]), routes=[low])
    failed = outside(data)
    assert [(f.where.wall, f.where.room, f.where.legs) for f in failed] == [("A.1", "A", (1,))]
    assert failed[0].where.from_mm == pytest.approx(600 + 150 - 5, abs=0.01)
    assert failed[0].where.to_mm == 1200
    assert "leg 1" in failed[0].text
    assert "(wall A.1)" in failed[0].text


def test_a_leg_over_three_walls_has_one_number_and_marks_that_go_on() -> None:
    data = case_of(room(), routes=[round_room([(2000, 2300), (8000, 2300)])])
    seen = [f for f in of("wall-zone", data) if f.where.face == "front"]
    assert [(f.where.wall, f.where.legs, f.where.from_mm, f.where.to_mm) for f in seen] == [
        ("A.1", (1,), 0, 1000), ("A.2", (1,), 1000, 5000), ("A.3", (1,), 5000, 6000),
    ]  # fmt: skip


def test_the_row_goes_round_past_its_end() -> None:
    over = case_of(room(), routes=[round_room([(13000, 2300), (15000, 2300)])])
    under = case_of(room(), routes=[round_room([(-1000, 2300), (1000, 2300)])])
    for data in (over, under):
        walls = [f.where.wall for f in of("wall-zone", data) if f.where.face == "front"]
        assert walls == ["A.4", "A.1"]


def test_there_is_one_rcd_for_the_whole_route() -> None:
    data = case_of(room(), routes=[round_room([(2000, 2300), (8000, 2300)], rcd=None)])
    (found,) = of("wall-rcd", data)
    assert (found.status, found.where.wall, found.where.room, found.where.legs) == ("fail", None, "A", (1,))


def test_what_a_route_joins_may_be_on_any_wall_of_the_room() -> None:
    far = room(walls=[own(4, accessory("S1", 2000, 450))])
    (missed,) = of("route-joins", case_of(far, routes=[round_room([(100, 450), (900, 450)], joins=["S1"])]))
    assert missed.status == "fail"
    assert missed.measured == pytest.approx(14000 - (10000 + 2073) + 100)
    (met,) = of("route-joins", case_of(far, routes=[round_room([(100, 450), (-2000, 450)], joins=["S1"])]))
    assert met.status == "pass"


def through(via: str, *, high: float) -> dict[str, Any]:
    points = [(1500, 1200), (1500, high), (8500, high), (8500, 1200)]
    return case_of(room(), routes=[round_room(points, via=["wall", via, "wall"])])


@pytest.mark.parametrize(("via", "high", "edge"), [("ceiling-void", 2400, "top"), ("floor-void", 0, "foot")])
def test_a_void_is_entered_at_the_top_or_the_foot(via: str, high: float, edge: str) -> None:
    (found,) = of("route-in-void", through(via, high=high))
    assert (found.status, found.where.legs, found.measured) == ("pass", (2,), 0.0)
    assert edge in found.text


@pytest.mark.parametrize(("via", "high"), [("ceiling-void", 2300), ("floor-void", 100), ("ceiling-void", 0)])
def test_a_void_is_not_entered_elsewhere(via: str, high: float) -> None:
    (found,) = of("route-in-void", through(via, high=high))
    assert found.status == "fail"
    assert found.measured == (2400 if high == 0 else 100)


def test_a_leg_in_a_void_is_no_leg_in_a_wall_and_goes_straight_across() -> None:
    """From x 1500 on the west wall to 1500 on the east wall, straight over: 4000 mm; along the walls 7000."""
    legs = [f.where for f in of("route-on-wall", through("ceiling-void", high=2400))]
    assert [(w.wall, w.legs, w.from_mm, w.to_mm) for w in legs] == [
        ("A.1", (1,), 0, 1200), ("A.3", (3,), 5200, 6400),
    ]  # fmt: skip


def test_a_void_over_a_single_wall_takes_a_cable_past_its_door() -> None:
    points = [(600, 450), (600, 2400), (2400, 2400), (2400, 450)]
    socket = [accessory("S1", 600, 450), accessory("S2", 2400, 450)]
    data = one_route(points, accessories=socket, joins=["S1", "S2"], via=["wall", "ceiling-void", "wall"])
    assert judged(data).passed


def shared(*, thickness: float = 100, **changes: Any) -> dict[str, Any]:
    """Return a route deep in the north wall of A, near the face of room B, as high as B's socket."""
    gap = [[x, y + thickness - 100] for x, y in BEHIND]
    socket = accessory("S2", 1000, 450, **SEEN)
    rooms = (
        room(walls=[own(2, thickness=thickness)]),
        room("B", gap, walls=[own(4, socket, thickness=thickness)]),
    )
    usual = {"joins": ["S2"], "depth": thickness - 20, **changes}
    return case_of(*rooms, routes=[round_room([(3200, 450), (4500, 450)], **usual)])


def test_on_the_rear_the_zones_of_the_room_behind_serve() -> None:
    assert outside(shared()) == []
    assert {f.where.face for f in outside(shared(joins=[]))} == {"rear"}


def test_on_the_front_they_serve_through_a_wall_of_100_and_no_thicker() -> None:
    """FACTS 1 and 8, grade Q: a wall of 100 mm or less; 100.1 is thicker."""
    thin, thick = shared(depth=20), shared(depth=20, thickness=100.1)
    assert outside(thin) == []
    assert {f.where.face for f in outside(thick)} == {"front"}


def test_a_strip_behind_ends_at_the_partition() -> None:
    """A strip ends where its face ends. Past the partition only the next room's corner serves (grade D)."""
    socket = accessory("S2", 1000, 450)
    rooms = room(), room("B", BEHIND, walls=[own(4, socket)]), room("C", BESIDE)
    points = [(3000 + 1500, 450), (3000 + 3500, 450)]
    (failed,) = outside(case_of(*rooms, routes=[round_room(points, joins=["S2"], depth=80)]))
    assert failed.where.face == "rear"
    assert failed.where.from_mm == pytest.approx(2600 + 150 - 5 - 1500, abs=0.01)
    assert failed.where.to_mm == 2000


def test_past_the_room_behind_its_strips_serve_no_more() -> None:
    """Nothing is known of that rear but its top and the angle where the room's own wall meets it."""
    case = read(case_of(room(), room("B", BEHIND, walls=[own(4, accessory("S2", 1000, 450))])))
    beyond = box(2500, 0, 4000, 2400)
    found = zones(case.wall("A.2"), "rear", Rulebook(UK), joined=None)
    reached = [zone for zone in found if zone.area.intersection(beyond).area > 0]
    assert {zone.source for zone in reached} == {"top", "corner"}
    assert max(zone.area.bounds[2] for zone in reached if zone.source == "corner") == 2650


def test_a_drill_meets_the_strips_of_the_room_behind_a_thin_wall() -> None:
    """Two-way caution: one who drills takes unlocatable accessories and both faces of a thin wall."""
    case = read(case_of(room(), room("B", BEHIND, walls=[own(4, accessory("S2", 1000, 450))])))
    region = avoid_region(case.wall("A.2"), "front", UK, diameter=5)
    assert region.contains(Point(800, 450))
    assert region.contains(Point(1500, 1300))
    assert not region.contains(Point(800, 1300))


@given(st.integers(0, 3), st.floats(100, 13900), st.floats(100, 13900), st.floats(0, 2400), st.booleans())
def test_where_a_plan_begins_changes_no_verdict(
    turn: int, one: float, other: float, y: float, bare: bool
) -> None:
    """A plan told from another of its points is the same room; so is one moved and turned."""
    ends = [(one, y), (other, 2300.0)]
    lengths = (3000, 4000, 3000, 4000)
    begun = sum(lengths[:turn])
    plan = [*SQUARE[turn:], *SQUARE[:turn]]
    same = [(x - begun, y) for x, y in ends]
    rcd = None if bare else {"ma": 30}
    first = judged(case_of(room(), routes=[round_room(ends, rcd=rcd)]))
    again = judged(case_of(room(plan=plan), routes=[round_room(same, rcd=rcd)]))
    assert _told(first.findings) == _told(again.findings)


def _told(findings: tuple[Finding, ...]) -> list[tuple[Any, ...]]:
    return [
        (f.rule, f.status, f.where.face, None if f.measured is None else round(f.measured, 2))
        for f in findings
    ]


@given(st.floats(100, 13900), st.floats(100, 13900), st.floats(0, 2400), st.floats(0, 2400))
def test_a_route_told_backwards_gets_the_same_verdict(x0: float, x1: float, y0: float, y1: float) -> None:
    ahead = judged(case_of(room(), routes=[round_room([(x0, y0), (x1, y1)])]))
    back = judged(case_of(room(), routes=[round_room([(x1, y1), (x0, y0)])]))
    assert sorted(map(str, _told(ahead.findings))) == sorted(map(str, _told(back.findings)))


def test_the_zones_of_a_shared_face_are_the_same_from_both_rooms() -> None:
    here, there = accessory("S1", 700, 1200, **SEEN), accessory("S2", 1000, 450, **SEEN)
    case = read(case_of(room(walls=[own(2, here)]), room("B", BEHIND, walls=[own(4, there)])))
    book = Rulebook(UK)
    rear = zone_area(zones(case.wall("A.2"), "rear", book, joined=None))
    front = zone_area(zones(case.wall("B.4"), "front", book, joined=None))
    shown = [zone.area.area for zone in zones(case.wall("A.2"), "rear", book, joined=None)]
    assert all(area > 0 for area in shown)
    over = rear.intersection(box(0, 0, 2500, 2400))
    assert over.area == pytest.approx(front.area, rel=1e-9)
