"""Marks for hung things worked out by hand (grade D: a fixing keeps half a drill and half a 20 mm cable off).

Three marks for hanging and seven for fixings out of danger, each in proportion to the things.
"""

import pytest

from tests.exercise.answers import exercise, marked, starters_of

BY_HAND = [
    ("kitchen-cupboard", 0, 10 - 7 / 2),  # right screw at 810 + 540 = 1350, on the middle of K1's strip
    ("kitchen-cupboard", 1, 10 - 7 / 2),  # right screw at 3060 + 540 = 3600, on the middle of S2's strip
    ("kitchen-cupboard", 2, 0),
    ("kitchen-cupboard", 3, 10 / 2),
    ("kitchen-cupboard", 4, 10 - 7 / 2),  # left screw at 60, within 150 + 12.5 of the corner
    ("hall-pictures", 0, 10 - 7 / 3),  # hook at 1050 + 150 = 1200, on the middle of S1's strip
    ("hall-pictures", 1, 10 - 7 / 3),  # hook at 2500, 7 mm from L1's strip, where 1 + 10 is asked
    ("hall-pictures", 2, 10 / 3),
    ("hall-pictures", 3, 10 * 2 / 3),
]


@pytest.mark.parametrize(("name", "number", "marks"), BY_HAND)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.001)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    there = {(name, number) for name in starters_of("fixings") for number in range(len(exercise(name).wrong))}
    assert {row[:2] for row in BY_HAND} == there
