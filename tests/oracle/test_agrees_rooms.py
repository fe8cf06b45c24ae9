"""The engine agrees with the second computation on rooms: unfolding, corners, shared walls, voids."""

from __future__ import annotations

import os
from collections import Counter
from itertools import pairwise

import pytest

from tests.oracle.compare import findings
from tests.oracle.draw_rooms import draw_rooms
from tests.oracle.indoors import cut
from tests.oracle.run import hunt
from tests.oracle.unfold import unfold

COUNT = int(os.environ.get("ORACLE_CASES", "120"))

BED = {"id": "A", "height": 2400, "thickness": 100, "build": "timber-stud",
       "plan": [[0, 0], [0, 3400], [4200, 3400], [4200, 2300], [3850, 2300], [3850, 1100], [4200, 1100],
                [4200, 0]]}  # fmt: skip
NEXT = {"id": "B", "height": 2400, "thickness": 100, "build": "timber-stud",
        "plan": [[500, 3500], [500, 6000], [3000, 6000], [3000, 3500]]}  # fmt: skip
SOCKET = {"id": "S1", "kind": "socket", "face": "front", "x": 600, "y": 450, "width": 86, "height": 86}


def test_engine_and_second_computation_agree_on_random_rooms() -> None:
    assert hunt(COUNT, pack="rooms") == {}


def test_the_random_rooms_bring_every_rule_to_every_status_it_has() -> None:
    seen = Counter((f.rule, str(f.status)) for seed in range(120) for f in findings(draw_rooms(seed)))
    both = ("wall-zone", "wall-rcd", "metal-wall", "route-joins", "route-on-wall", "route-in-void")
    due = {(rule, status) for rule in both for status in ("pass", "fail")}
    assert {pair for pair in due if seen[pair] < 5} == set()


def test_the_random_rooms_hold_what_the_text_singles_out() -> None:
    cases = [draw_rooms(seed) for seed in range(120)]
    houses = [unfold(case) for case in cases]
    shared = [one for house in houses for found in house.behind.values() for one in found]
    assert len(shared) >= 100
    sides = [side for house in houses for side in house.sides.values()]
    assert sum(bool(side.wall["front"]["external_corners"]) for side in sides) >= 40
    assert sum(len(found) > 1 for house in houses for found in house.behind.values()) >= 10
    runs = [
        cut(route, houses[i].row(route["room"])) for i, case in enumerate(cases) for route in case["routes"]
    ]
    assert sum(len(found) > 1 for found in runs) >= 60


@pytest.mark.parametrize(
    ("number", "internal", "external"),
    # A chimney breast 1200 wide, 350 deep, on the east wall: its two outer angles are external (grade D).
    [(1, [0, 3400], []), (2, [0, 4200], []), (3, [0, 1100], []), (4, [0], [350]), (5, [], [0, 1200]),
     (6, [350], [0]), (7, [0, 1100], []), (8, [0, 4200], [])],
)  # fmt: skip
def test_corners_come_out_as_on_paper(number: int, internal: list[float], external: list[float]) -> None:
    side = unfold({"rooms": [BED]}).sides[f"A.{number}"]
    assert side.wall["front"]["internal_corners"] == internal
    assert side.wall["front"]["external_corners"] == external


def test_a_shared_wall_is_seen_from_both_rooms() -> None:
    # Wall 2 of A runs from 0 to 4200 at y 3400, wall 4 of B back from 3000 to 500 behind it: an x there is
    # 3000 less x here. So its socket at 600 lies at 2400, on the rear, and its corners at 500 and 3000.
    house = unfold({"rooms": [BED, {**NEXT, "walls": [{"number": 4, "accessories": [SOCKET]}]}]})
    wall = house.sides["A.2"].wall
    assert [(a["x"], a["face"]) for a in wall["accessories"]] == [(2400, "rear")]
    assert sorted(wall["rear"]["internal_corners"]) == [500, 3000]
    assert [b.span for b in house.behind["A.2"]] == [(500, 3000)]
    assert [b.at for b in house.behind["B.4"]] == [3000]


def test_a_route_is_cut_at_the_corners_and_in_a_void() -> None:
    # Over 3400 from wall 1 into wall 2, up to the ceiling, straight over the plan to wall 1, down (grade D):
    # 1400 + 600 on the walls, 1950 up; from (600, 3400) to (0, 2400): the root of 600^2 + 1000^2.
    route = {"id": "R1", "room": "A", "cable": {"width": 10, "thickness": 6}, "depth": 20,
             "points": [[2000, 450], [4000, 450], [4000, 2400], [2400, 2400], [2400, 1000]],
             "via": ["wall", "wall", "ceiling-void", "wall"]}  # fmt: skip
    runs = cut(route, unfold({"rooms": [BED]}).row("A"))
    told = [(run.side.wall["id"], run.begin, run.numbers, run.route["points"]) for run in runs]
    assert told == [
        ("A.1", 0, (1,), [[2000, 450], [3400, 450]]),
        ("A.2", 1400, (1, 2), [[0, 450], [600, 450], [600, 2400]]),
        ("A.1", pytest.approx(3950 + (600**2 + 1000**2) ** 0.5), (4,), [[2400, 2400], [2400, 1000]]),
    ]
    assert all(a.begin < b.begin for a, b in pairwise(runs))
