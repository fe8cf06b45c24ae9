"""Marks of choices, numbers and given routes, worked out by hand (grade D: arithmetic on the questions)."""

import pytest

from tests.exercise.answers import exercise, marked, names_of, starters_of

# In the store, leg 1 is 1950 mm long and leg 2 1400 mm. Plastic conduit is 20 mm across: it is outside from
# 10 mm above the top band's edge, at 2250, to 10 mm below the upper edge of S1's strip, at 450 + 43.
PLASTIC = 4 * 0.5 * (1 - ((2250 + 10) - (493 - 10)) / (1950 + 1400))

# In the study, the rear has no zone but the top band. A cable 10.3 mm wide is outside 5.15 mm above its edge.
BEHIND = 4 * 0.5 * (1 - (2250 + 5.15 - 450) / 1950)

BY_HAND = {
    "store-given-run": (PLASTIC + 3, 4 + 3 + 0 + 1, 4 + 3 + 0 + 0, 4 + 0 + 2 + 1),
    "study-how-deep": (BEHIND + 4, 4 + 4 + 0, 4 + 0 + 0),
    # Two of six may go in, four may not: share of the two ticked, less share of the four.
    "landing-which-screws": (5 * (2 / 2 - 1 / 4), 5 * (2 / 2 - 1 / 4), 5 * 1 / 2, 0),
    # Three of six are right.
    "porch-what-to-say": (5 * 2 / 3, 5 * (2 / 3 - 1 / 3), 5 * (3 / 3 - 1 / 3)),
    # Two of five are right, three are not.
    "office-which-clauses": (5 * 1 / 2, 5 * (1 / 2 - 1 / 3), 5 * (2 / 2 - 1 / 3)),
    # 120 - 6 - 50 = 64 mm, to 0.5 mm; 70 mm is within 6 mm, 50 and 20 mm are not.
    "nursery-from-behind": (4 / 2, 0, 0),
    # 102 / 3 = 34 mm, to 0.5 mm; 33 mm is within 1.5 mm. 102 / 6 = 17 and 128 / 3 = 42.7 are neither.
    "utility-deepest-chase": (0, 0, 4 / 2),
    # 2250 - 2150 + 10 / 2 = 105 mm, to 1 mm; 100 and 110 mm are within 6 mm.
    "bedroom-how-far-out": (4 / 2, 0, 4 / 2),
}
ROWS = [(name, number, marks) for name, every in BY_HAND.items() for number, marks in enumerate(every)]


@pytest.mark.parametrize(("name", "number", "marks"), ROWS)
def test_the_marks_of_a_typical_mistake(name: str, number: int, marks: float) -> None:
    assert marked(name, exercise(name).wrong[number]["answer"]).score == pytest.approx(marks, abs=0.002)


def test_every_typical_mistake_of_the_starters_is_worked_out() -> None:
    names = {*starters_of("protect"), *starters_of("choose"), *starters_of("number")}
    assert {name: len(exercise(name).wrong) for name in names} == {
        name: len(every) for name, every in BY_HAND.items()
    }


@pytest.mark.parametrize("kind", ["protect", "choose", "number"])
def test_there_are_two_of_each_kind(kind: str) -> None:
    assert len(names_of(kind)) >= 2
