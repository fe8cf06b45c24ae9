"""Rooms: their walls, their corners, the walls they share, and plans that are none."""

import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rules.cases import accessory, one_route, opening
from tests.rules.rooms import BEHIND, BESIDE, SQUARE, case_of, own, room, round_room
from zonelib import load_pack
from zonelib.site.faults import FileFault
from zonelib.site.load import case_from_data
from zonelib.site.model import Case
from zonelib.site.ring import ring_of
from zonelib.site.room import RoomWall, known_behind

NAMES = load_pack("uk").vocabulary
BREAST = [[0, 0], [0, 3000], [1500, 3000], [1500, 2600], [2700, 2600], [2700, 3000], [4000, 3000], [4000, 0]]
"""A chimney breast 1200 mm wide that stands 400 mm into the room."""


def read(data: dict[str, Any]) -> Case:
    return case_from_data(data, NAMES)


def walls(*rooms: dict[str, Any]) -> dict[str, RoomWall]:
    return {wall.id: wall for wall in read(case_of(*rooms)).walls if isinstance(wall, RoomWall)}


def corners(wall: RoomWall) -> tuple[list[float], list[float]]:
    """Return the internal and the external corners of a wall's front."""
    return list(wall.front.internal_corners), list(wall.front.external_corners)


def test_a_room_gives_one_wall_for_each_edge_of_its_plan() -> None:
    found = walls(room())
    assert {name: wall.length for name, wall in found.items()} == {
        "A.1": 3000,
        "A.2": 4000,
        "A.3": 3000,
        "A.4": 4000,
    }


def test_every_corner_of_a_square_room_is_internal() -> None:
    for wall in walls(room()).values():
        assert list(wall.front.internal_corners) == [0, wall.length]
        assert list(wall.front.external_corners) == []


def test_a_chimney_breast_has_two_external_corners() -> None:
    found = walls(room(plan=BREAST))
    assert corners(found["A.4"]) == ([], [0, 1200])
    assert corners(found["A.3"]) == ([0], [400])
    assert corners(found["A.2"]) == ([0, 1500], [])


def test_where_a_wall_goes_straight_on_there_is_no_corner() -> None:
    found = walls(room(plan=[[0, 0], [0, 1000], [0, 3000], [4000, 3000], [4000, 0]]))
    assert corners(found["A.1"]) == ([0], [])
    assert corners(found["A.2"]) == ([2000], [])


@given(st.integers(3, 9), st.floats(500, 5000), st.floats(0, math.tau))
def test_the_corners_of_a_convex_room_are_internal_however_it_is_turned(
    n: int, size: float, turn: float
) -> None:
    plan = [
        [size * math.cos(turn - k * math.tau / n), size * math.sin(turn - k * math.tau / n)] for k in range(n)
    ]
    for wall in walls(room(plan=plan)).values():
        assert len(wall.front.internal_corners) == 2


def test_a_wall_may_differ_from_its_room() -> None:
    found = walls(
        room(walls=[own(2, top=[[0, 2400], [4000, 1200]], thickness=250, build="masonry", leaf=100)])
    )
    assert list(found["A.2"].profile) == [(0, 2400), (4000, 1200)]
    assert (found["A.2"].thickness, found["A.2"].build, found["A.2"].chased_leaf) == (250, "masonry", 100)
    assert (found["A.1"].thickness, found["A.1"].build) == (100, "timber-stud")


def test_the_rear_of_a_wall_is_the_front_of_the_room_behind() -> None:
    socket, door = accessory("S1", 1000, 450), opening("D1", 200, 0, 800, 2000, kind="door")
    found = walls(room(), room("B", BEHIND, finish=15, walls=[own(4, socket, openings=[door])]))
    there = found["A.2"]
    assert [(one.id, one.face, one.x) for one in there.accessories] == [("S1", "rear", 1500)]
    assert [(one.id, one.x) for one in there.openings] == [("D1", 1500)]
    assert there.rear.finish == 15
    assert [(one.wall.id, one.at) for one in there.behind] == [("B.4", 2500)]


def test_a_partition_met_in_mid_wall_gives_two_corners() -> None:
    """DESIGN of the case file: a partition that meets a wall in its middle makes an angle on each side."""
    found = walls(room(), room("B", BEHIND), room("C", BESIDE))
    assert list(found["A.2"].rear.internal_corners) == [0, 2500, 2600, 4000]
    assert found["B.3"].behind[0].wall.id == "C.1"


@pytest.mark.parametrize(
    ("left", "right", "known"), [(2600, 4000, True), (2700, 4000, False), (2600, 3999.9, False)]
)
def test_a_rear_is_known_where_rooms_lie_behind_all_of_it(left: float, right: float, known: bool) -> None:
    """The partition between two rooms behind is 100 mm thick; a wider gap may be a third room."""
    beside = [[left, 3100], [left, 6000], [right, 6000], [right, 3100]]
    assert known_behind(walls(room(), room("B", BEHIND), room("C", beside))["A.2"]) is known


def test_a_rear_is_not_known_without_a_room_behind_but_is_where_a_file_draws_the_wall_itself() -> None:
    found = walls(room(), room("B", BEHIND))
    assert [known_behind(found[name]) for name in ("A.1", "A.2", "B.4")] == [False, False, True]
    (drawn,) = read(one_route([[1200, 450], [1200, 2400]])).walls
    assert known_behind(drawn)


def test_the_lock_side_of_a_door_is_the_other_one_from_behind() -> None:
    door = {**opening("D1", 200, 0, 800, 2000, kind="door"), "lock_side": "left"}
    found = walls(room(), room("B", BEHIND, walls=[own(4, openings=[door])]))
    assert found["A.2"].openings[0].lock_side == "right"


def test_rooms_that_lie_apart_share_nothing() -> None:
    far = [[x, y + 100] for x, y in BEHIND]
    assert list(walls(room(), room("B", far))["A.2"].behind) == []


HALF_DOOR = opening("D1", 2000, 0, 800, 2000, kind="door")
TWICE = [own(1, accessory("S1", 900, 450))]
MISTAKES: dict[str, tuple[dict[str, Any], str]] = {
    "anticlockwise": (
        case_of(room(plan=SQUARE[::-1])),
        "rooms.A.plan: found points that run anticlockwise; allowed: points clockwise, seen from above",
    ),
    "crossing": (
        case_of(room(plan=[[0, 0], [4000, 3000], [4000, 0], [0, 3000]])),
        "rooms.A.plan: found walls that cross or touch; allowed: a plan whose walls meet at their ends only",
    ),
    "closed twice": (
        case_of(room(plan=[*SQUARE, [0, 0]])),
        "rooms.A.plan: found wall 5 of no length; allowed: points that differ, the first",
    ),
    "no such wall": (
        case_of(room(walls=[own(5)])),
        "rooms.A.walls.number: found 5; allowed: 1 to 4, the walls of the plan",
    ),
    "one wall twice": (
        case_of(room(walls=[own(2), own(2)])),
        "rooms.A.walls.number: found 2 more than once; allowed: one entry for each wall",
    ),
    "socket off its wall": (
        case_of(room(walls=[own(3, accessory("S1", 3500, 450))])),
        "rooms.A.walls.3.accessories.S1: found x 3427 to 3573, y 407 to 493, off the wall; allowed:",
    ),
    "both height and top": (
        case_of(room(walls=[own(3, height=2000, top=[[0, 2400], [3000, 1200]])])),
        "rooms.A.walls.3: found both height and top; allowed: one of height and top",
    ),
    "overlapping floors": (
        case_of(room(), room("B", [[x, y - 200] for x, y in BEHIND])),
        "rooms.A.plan: found a floor that overlaps room B; allowed: rooms side by side in one plan",
    ),
    "no room for two walls": (
        case_of(room(), room("B", [[x, y + 50] for x, y in BEHIND])),
        "rooms.A.plan: found wall A.2 with 150 mm to wall B.4; allowed: 100 for one wall between them",
    ),
    "two thicknesses": (
        case_of(room(), room("B", BEHIND, thickness=150)),
        "rooms.A.plan: found wall A.2 with 100 mm to wall B.4; allowed: one thickness for both, now",
    ),
    "two builds": (
        case_of(room(), room("B", BEHIND, build="masonry")),
        "walls.A.2.build: found timber-stud, with masonry for B.4, the same wall seen from the other room",
    ),
    "rear of a shared wall": (
        case_of(room(walls=[own(2, accessory("S1", 1000, 450, face="rear"))]), room("B", BEHIND)),
        "walls.A.2.S1.face: found rear, which is the front of wall B.4; allowed: front, on wall B.4",
    ),
    "half a door": (
        case_of(room(walls=[own(2, openings=[HALF_DOOR])]), room("B", BEHIND)),
        "walls.A.2.D1: found an opening of which 500 mm lie in wall B.4 of the other",
    ),
    "neither wall nor room": (
        case_of(room(), routes=[{k: v for k, v in round_room([[0, 9], [9, 9]]).items() if k != "room"}]),
        "routes.R1: found neither wall nor room; allowed: one of wall and room",
    ),
    "both wall and room": (
        case_of(room(), routes=[round_room([[0, 9], [9, 9]], wall="A.1")]),
        "routes.R1: found both wall and room; allowed: one of wall and room",
    ),
    "unknown room": (
        case_of(room(), routes=[round_room([[0, 9], [9, 9]], room="B")]),
        'routes.R1.room: found "B"; allowed: A',
    ),
    "twice round the room": (
        case_of(room(), routes=[round_room([[0, 9], [28001, 9]])]),
        "routes.R1.points: found x from 0 to 28001; allowed: -14000 to 28000: 14000 is once round the room",
    ),
    "an id used for a room's wall": (
        case_of(room(), walls=[{"id": "A.1", "length": 9, "height": 9, "thickness": 9, "build": "masonry"}]),
        'walls.id: found "A.1" more than once; allowed: one id for each of the walls',
    ),
    "an accessory's id in two rooms": (
        case_of(room(walls=TWICE), room("B", BEHIND, walls=TWICE)),
        'walls.accessories.id: found "S1" more than once; allowed: one id for each of the accessories',
    ),
    "an unknown way": (
        case_of(room(), routes=[round_room([[0, 9], [9, 9]], via="loft")]),
        'routes.R1.via: found "loft"; allowed: \'wall\', \'ceiling-void\'',
    ),
}  # fmt: skip


@pytest.mark.parametrize(("data", "expected"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_told_with_what_is_allowed(data: dict[str, Any], expected: str) -> None:
    with pytest.raises(FileFault, match=re.escape(expected)):
        read(data)


def test_every_mistake_of_a_file_is_told_at_once() -> None:
    data = case_of(room(plan=SQUARE[::-1]), room("B", BEHIND, walls=[own(9)], height=-1))
    with pytest.raises(FileFault, match="anticlockwise") as caught:
        read(data)
    assert {fault.path for fault in caught.value.faults} == {
        "rooms.A.plan",
        "rooms.B.walls.number",
        "rooms.B.height",
    }


@given(st.floats(-14000, 28000))
def test_an_x_of_the_row_lies_on_the_wall_and_in_the_plan_alike(x: float) -> None:
    ring = ring_of(read(case_of(room())), "A")
    index, along = ring.at(x)
    assert -0.001 <= along <= ring.walls[index].length + 0.001
    assert math.isclose((ring.starts[index] + along - x) % 14000, 0, abs_tol=0.01) or math.isclose(
        (ring.starts[index] + along - x) % 14000, 14000, abs_tol=0.01
    )


@given(st.floats(0, 13999), st.floats(0, 13999))
def test_a_leg_cut_at_corners_is_whole_again_when_its_parts_are_laid_in_a_row(
    one: float, other: float
) -> None:
    ring = ring_of(read(case_of(room())), "A")
    parts = list(ring.parts((one, 500.0), (other, 1500.0)))
    total = sum(math.dist(part.start, part.end) for part in parts)
    assert math.isclose(total, math.dist((one, 500.0), (other, 1500.0)), rel_tol=1e-9, abs_tol=0.01)
    for part in parts:
        assert all(-0.01 <= x <= ring.walls[part.wall].length + 0.01 for x, _ in (part.start, part.end))
