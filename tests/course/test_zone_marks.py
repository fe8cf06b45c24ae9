"""Marks for drawn zones worked out by hand (grade D: arithmetic on the boundary words of 522.6.202)."""

from collections.abc import Sequence

import pytest

from tests.exercise.answers import exercise, marked, starters_of

SLACK = 15

# Areas of the zones [mm²]: top, two corners, L1 up and level, S1 up and level; strips end at the window.
BEDROOM = [3600 * 150, 150 * 2400, 150 * 2400, 86 * 2400, 1300 * 86, 146 * 900, 3600 * 86]
# Top, two corners, S1 up and level; the top falls by half a millimetre for each millimetre from x 2000 on.
LOFT = [4200 * 150, 150 * 2400, 150 * (1300 + 1375) / 2, 146 * 2000, 4200 * 86]


def beyond(strayed: float, zones: Sequence[float]) -> float:
    """Return how many mean zones are drawn beyond them, as a share of the number of zones."""
    return strayed / (sum(zones) / len(zones)) / len(zones)


# Past the window, up to the slack before the top band and the corner band.
RUN_ON = 146 * (2250 - SLACK - 2000) + (3450 - SLACK - 2500) * 86
# Between the corner bands and the two strips that stand on the floor, each wider by the slack.
FLOOR = 150 * ((757 - 150 - 2 * SLACK) + (2127 - 843 - 2 * SLACK) + (3450 - 2273 - 2 * SLACK))


def loft_others() -> float:
    """Area of the strips of S2 and L1 outside the zones; where they cross it counts once."""
    upright = (407 - SLACK) + (2250 - SLACK) - (493 + SLACK)
    left, right = 2727 - SLACK - (150 + SLACK), 4050 - SLACK - (2873 + SLACK)
    tip = (2966 - 2888) * (1789 - 1750) / 2  # what of L1's level strip lies right of S1, below the slope
    crossings = 146 * 86 + 100 * 86 + 146 * 100 + 100 * 100
    return upright * (146 + 100) + (left + right) * 86 + left * 100 + tip - crossings


def slope_share() -> float:
    """Share of the top band that lies under its level part, edges within the slack left out."""
    level = (2000 - 150) * (150 - 2 * SLACK)
    slope = (4050 - 2000 - 146) * (150 - 2 * SLACK * 1.25**0.5)
    return float(level / (level + slope))


BY_HAND = [
    ("bedroom-zones", 0, 10 * (1 - beyond(RUN_ON, BEDROOM)) - 3 * 0.5 - 3 * 0.5),
    ("bedroom-zones", 1, 10 - 2),
    ("bedroom-zones", 2, 10 * (1 - beyond(FLOOR, BEDROOM))),
    ("bedroom-zones", 3, 0),
    ("loft-zones", 0, 10 * (1 - beyond(loft_others(), LOFT))),
    ("loft-zones", 1, 10 - 3 * (1 - slope_share())),
    ("loft-zones", 2, 10 - 3 * 0.5),
]


@pytest.mark.parametrize(("name", "number", "marks"), BY_HAND)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.02)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    there = {(name, number) for name in starters_of("zones") for number in range(len(exercise(name).wrong))}
    assert {row[:2] for row in BY_HAND} == there
