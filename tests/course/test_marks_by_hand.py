"""Marks worked out by hand (grade D: derived from the boundary words), not taken from the code.

A bare cable is 10.3 mm wide, conduit 20 mm. So the cable is outside from half its width above a zone's
lower edge: 2250 + 5.15 below the top band, and down to 5.15 below the upper edge of S1's strip. Of the
marks for the zone, half are given in proportion to the length inside.
"""

from math import hypot

import pytest

from tests.exercise.answers import Answer, exercise, marked, starters_of

HALF = 10.3 / 2
DROP = (2250 + HALF) - (450 + 43 - HALF)  # from the top band to the strip level with a socket at 450
HATCH = (2250 + HALF) - (950 + 43 - HALF)
HATCH_CONDUIT = (2250 + 10) - (950 + 43 - 10)


def share(outside: float, length: float) -> float:
    return 0.5 * (1 - outside / length)


def slant_outside() -> float:
    """Length outside on the straight line from (700, 2400) to S1 at (1250, 450)."""
    whole = hypot(550, 1950)
    leaves = whole * (2400 - 2250 - HALF) / 1950
    arrives = whole * (1250 - 73 + HALF - 700) / 550
    return arrives - leaves


def over_the_door() -> float:
    """Length outside from the start on the slant to (1800, 2200), then down to the strip of S1."""
    whole = hypot(1400, 200)
    return whole - whole * (2400 - 2250 - HALF) / 200 + 2200 - (450 + 43 - HALF)


def over_the_corners() -> tuple[float, float]:
    """Length outside, and length, from above SW1 on the slant to L1: 3550 mm along the walls, 700 mm down.

    It leaves the top band at its lower edge, and is inside again by each of three corners, 150 mm to either
    side, and at last in the strip level with L1, below 1750. The cable is 8.2 mm wide.
    """
    half, along = 8.2 / 2, 3550 / 700
    leaves, arrives = (2400 - 2250 - half) * along, (2400 - 1750 + half) * along
    slant = hypot(3550, 700)
    return (arrives - leaves - 3 * 2 * (150 - half)) * slant / 3550, 1200 + slant


OVER_THE_CEILING = hypot(4200 - 1500 - 3850, 2300 - 200)
"""From above SW1, 1500 mm along the near wall, to 200 mm along the chimney breast, straight over the plan."""

BY_HAND = [
    ("bedroom-over-the-ceiling", 0, 2 + 6 + 1),
    ("bedroom-over-the-ceiling", 1, 2 + 6 * share(*over_the_corners())),
    (
        "bedroom-over-the-ceiling", 2,
        2 + 6 * share(2250 - 1750 + 8.2, 1200 + OVER_THE_CEILING + 700 + 400) + 1,
    ),
    ("bedroom-drop", 0, 2 + 7 * share(DROP, 550 + 1950) + 1),
    ("bedroom-drop", 1, 2 + 7 * share(slant_outside(), hypot(550, 1950)) + 1),
    ("bedroom-drop", 2, 2 + 7 * share((2250 + HALF) - 2150 + (1250 - 73 + HALF - 700), 2500) + 1),
    ("living-room-corner", 0, 1 + 5 * share(DROP, 70 + 1450 + 1880 + 800) + 2 + 1 + 1),
    ("living-room-corner", 1, 1 + 5 + 0 + 1 + 1),
    ("living-room-corner", 2, 0),
    ("living-room-corner", 3, 1 + 5 * share(over_the_door(), hypot(1400, 200) + 1750 + 850) + 2 + 0 + 1),
    ("kitchen-hatch", 0, 1 + 5 * share(HATCH_CONDUIT, 70 + 565 + 1380 + 635) + 2 + 2 + 1 + 1),
    ("kitchen-hatch", 1, 1 + 5 + 2 + 0 + 1 + 1),  # 50 - 13 + 6 = 43 mm of chase, where 100 / 3 is the limit
    ("kitchen-hatch", 2, 1 + 5 + 2 + 0 + 0 + 1),  # 15 - 13 + 20 = 22 mm of level chase, where 100 / 6 is
    ("kitchen-hatch", 3, 1 + 5 + 0 + 2 + 1 + 1),
    ("kitchen-hatch", 4, 1 + 5 * share(HATCH, 2650) + 2 + 2 + 1 + 1),
    ("landing-first-run", 0, 1 + 3 * share(DROP, 70 + 500 + 1880 + 900) + 1),
    ("landing-first-run", 1, 1 + 3 * share(DROP, 1950 + 1400) + 1),
]  # fmt: skip


@pytest.mark.parametrize(("name", "number", "marks"), BY_HAND)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.002)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    names = {name for name, _, _ in BY_HAND}
    there = {(name, number) for name in names for number in range(len(exercise(name).wrong))}
    assert {row[:2] for row in BY_HAND} == there
    assert names == set(starters_of("route"))


def lost(name: str, answer: Answer) -> dict[str, str]:
    return {one.id: one.reason for one in marked(name, answer).criteria if not one.met}


@pytest.mark.parametrize(
    ("name", "number", "reasons"),
    [
        ("bedroom-drop", 0, {"zone": "outside the zones; 29% of the length is in order"}),
        ("living-room-corner", 0, {"zone": "outside the zones; 58% of the length is in order"}),
        ("living-room-corner", 1, {"rcd": "no RCD that counts"}),
        ("kitchen-hatch", 0, {"zone": "outside the zones; 52% of the length is in order"}),
        ("kitchen-hatch", 1, {"chase": "chase too deep"}),
        ("kitchen-hatch", 3, {"rcd": "no RCD that counts"}),
    ],
)
def test_the_reason_names_what_was_lost(name: str, number: int, reasons: dict[str, str]) -> None:
    assert lost(name, exercise(name).wrong[number]["answer"]) == reasons


def test_conduit_all_the_way_loses_the_chases_and_the_needless_coverings() -> None:
    reasons = lost("kitchen-hatch", exercise("kitchen-hatch").wrong[2]["answer"])
    said = "Without a covering, legs 1 to 2 (a to c) and 4 (d to e) would pass as well."
    assert reasons["covering"] == said
    assert list(reasons) == ["chase", "covering"]
