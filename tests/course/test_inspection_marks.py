"""Marks for inspections worked out by hand (grade D).

Four marks for the stretches, two each for clause and remedy, one each for why and for new work; each in
proportion to what fails, and for new work to the cables, one judged otherwise taking one off.
"""

import pytest

from tests.exercise.answers import exercise, marked, starters_of

SLACK = 60
# The slant of R3 is 600 x the root of 2 long; 170 to 880 is marked of what lies within the slack of its ends.
SLANT = (880 - 170) / (600 * 2**0.5 - 2 * SLACK)

BY_HAND = [
    ("dining-inspection", 0, (4 + 2 + 2 + 1) / 2 + (2 - 1) / 3),
    ("dining-inspection", 1, 10 - 2),
    ("dining-inspection", 2, 0),
    ("study-inspection", 0, 4 * (2 + SLANT) / 3 + (2 + 2 + 1) * 2 / 3 + 1),
    ("study-inspection", 1, 10 - 2 * 2 / 3),  # conduit takes the place of the zone, and of neither chase
    ("study-inspection", 2, (4 + 2 + 2 + 1) * 2 / 3 + (2 - 1) / 3),
]


@pytest.mark.parametrize(("name", "number", "marks"), BY_HAND)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.001)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    there = {(name, number) for name in starters_of("inspect") for number in range(len(exercise(name).wrong))}
    assert {row[:2] for row in BY_HAND} == there
