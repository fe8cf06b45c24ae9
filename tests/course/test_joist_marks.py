"""Marks for cuts in joists worked out by hand (grade T: the published limits; D: the arithmetic).

A 200 mm joist takes holes to 50 mm, a 150 mm one notches to 18.75 mm. Marks by default: served 2,
cover 3, size 1, place 2, apart 1, covering 1. Each part is given in proportion to the cuts that count.
"""

import pytest

from tests.exercise.answers import exercise, marked, starters_of

BY_HAND = [
    ("landing-joist", 0, 2 + 0 + 1 + 0 + 1 + 0),  # 200 - 160 - 8 = 32 mm of cover, 60 mm off the centre line
    ("landing-joist", 1, 10 - 2),  # 1700 mm from the nearest support, where 0.4 x 3600 = 1440 is the limit
    ("landing-joist", 2, 10 - 1),  # 30 mm apart; 3 x 16 = 48 and 3 x 20 = 60 are asked
    ("landing-joist", 3, 10 - 1),
    ("landing-joist", 4, 2 / 3),  # one cable of three is served, by a hole too large to count for more
    ("bathroom-joist", 0, 2 + 3 / 2 + 1 + 2 + 1 + 0),
    ("bathroom-joist", 1, 10 - 1 / 2),  # 60 mm from the old hole; 3 x 30 = 90 is asked
    ("bathroom-joist", 2, 2 + 3 / 2 + 1 / 2 + 2 / 2 + 1 / 2 + 0),  # 150 / 8 = 18.75 mm, and 25 is cut
    ("bathroom-joist", 3, 10 - 2 / 2),
]


@pytest.mark.parametrize(("name", "number", "marks"), BY_HAND)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.001)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    there = {(name, number) for name in starters_of("joist") for number in range(len(exercise(name).wrong))}
    assert {row[:2] for row in BY_HAND} == there
