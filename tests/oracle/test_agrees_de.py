"""The engine agrees with the second computation under the ``de`` pack, and both with what paper says."""

from __future__ import annotations

import os
from collections import Counter
from typing import Any

import pytest

from tests.oracle.compare import disagreements, due_findings, findings
from tests.oracle.draw_de import draw_de_case
from tests.oracle.run import hunt

COUNT = int(os.environ.get("ORACLE_CASES", "200"))

DOOR = {"id": "D1", "kind": "door", "x": 1000, "y": 0, "width": 900, "height": 2000, "lock_side": "right"}
SWITCH = {"id": "S1", "kind": "switch", "face": "front", "x": 3000, "y": 1150, "width": 80, "height": 80}


def test_engine_and_second_computation_agree_on_random_walls_and_fixings_in_germany() -> None:
    assert hunt(COUNT, pack="de") == {}


def test_the_random_cases_bring_every_rule_to_every_status_it_has() -> None:
    seen = Counter((f.rule, str(f.status)) for seed in range(100) for f in findings(draw_de_case(seed)))
    due = {(rule, status) for rule in ("wall-zone", "wall-line", "fixing") for status in ("pass", "fail")}
    due |= {("wall-zone", "not-applicable"), ("wall-line", "not-applicable"), ("fixing", "caution")}
    assert {pair for pair in due if seen[pair] < 10} == set()


def sample(points: list[list[float]], depth: float = 20, **wall: Any) -> dict[str, Any]:
    """Return a case: a wall 5000 x 2400 x 240, a corner at each end, a door from 1000 to 1900, a switch."""
    one = {"id": "W1", "length": 5000, "height": 2400, "thickness": 240, "build": "masonry",
           "front": {"internal_corners": [0, 5000]}, "openings": [DOOR], "accessories": [SWITCH],
           **wall}  # fmt: skip
    route = {"id": "R1", "wall": "W1", "joins": ["S1"], "points": points, "depth": depth}
    route["cable"] = {"width": 10, "thickness": 6}
    return {"pack": "de", "walls": [one], "routes": [route]}


# What is drawn; from, to and how far out on the front, and whether the line is straight. Zones: 150 to 450,
# 1950 to 2250, over the door from 2100; 100 to 300 and 4700 to 4900; beside the lock 2000 to 2200; the
# switch's stub, 700 from the floor's zone and 800 from the ceiling's, 2960 to 3040. Half the cable is 5.
PAPER: dict[str, tuple[dict[str, Any], list[tuple[float, float, float]], bool]] = {
    "up from the floor's zone to the switch": (sample([[2100, 300], [3000, 300], [3000, 1150]]), [], True),
    # Out past 2250 - 5 and 445 - 5 = 440 from the end at 1190; far end (1950 - 1190) / 2 + 5 = 385.
    "down from the ceiling's zone to the switch": (
        sample([[3000, 2100], [3000, 1150]]), [(145, 915, 385)], True,
    ),
    # Kept clear round the door: up to 2100, from 900 to 2000; so from 900 - 5 to 2000 + 5, and 50 + 5 deep.
    "level over the door, too near it": (sample([[500, 2050], [2500, 2050]]), [(395, 1505, 55)], True),
    "level over the door, high enough": (sample([[500, 2105], [2500, 2105]]), [], True),
    "upright beside the lock": (sample([[2100, 300], [2100, 2100]]), [], True),
    # Beside the hinge there is none: from 450 - 5 to 1950 + 5, (1950 - 450) / 2 + 5, but for the corner's,
    # which ends at 300, 600 away; the lock's begins at 2000.
    "upright beside the hinge": (sample([[800, 300], [800, 2100]]), [(145, 1655, 505)], True),
    "slanting within the floor's zone": (sample([[500, 200], [850, 400]]), [], False),
    "60 mm deep": (sample([[500, 1000], [600, 1000]], 60), [(0, 100, 305)], True),
}  # fmt: skip


@pytest.mark.parametrize("title", PAPER)
def test_both_say_what_paper_says(title: str) -> None:
    case, due, straight = PAPER[title]
    for given in (due_findings(case), list(findings(case))):
        fails = [f for f in given if f.rule == "wall-zone" and f.status == "fail"]
        assert len(fails) == len(due)
        lines = {f.status for f in given if f.rule == "wall-line"}
        assert lines == ({"pass"} if straight else {"fail"})
    for one, stretch in zip((e for e in due_findings(case) if e.ends), due, strict=True):
        assert one.ends is not None
        assert (*one.ends, one.measured) == pytest.approx(stretch, abs=0.2)
    assert disagreements(case) == []
