"""Rooms of every exercise of the bank that has some: solvable, none alike, as hard as the exercise.

The long form is ``python -m tests.coach.variants_spread 1000``.
"""

import re

import pytest

from tests.coach.variants_spread import spread_of, varied
from tests.exercise.answers import exercise
from zonelib.coach.variants.checking import must_vary, variant_doubts
from zonelib.coach.variants.vary import family_of
from zonelib.exercise import freeze
from zonelib.exercise.trial import trials

VARIED = varied()
ROOMS = 25


def test_ten_exercises_or_more_vary_and_most_kinds_do() -> None:
    assert len(VARIED) >= 10
    assert len({exercise(name).kind for name in VARIED}) >= 7


@pytest.mark.parametrize("name", VARIED)
def test_every_room_is_solvable_none_is_alike_and_all_are_as_hard(name: str) -> None:
    spread = spread_of(name, range(ROOMS))
    assert (spread.unsolved, spread.alike) == (0, 0)
    assert {one.traps for one in spread.rooms} == {spread.plain.traps}
    assert {one.legs for one in spread.rooms} == {spread.plain.legs}
    assert all(0.5 * spread.plain.margin <= one.margin + 0.1 for one in spread.rooms)
    assert all(one.margin <= 2 * spread.plain.margin + 0.1 for one in spread.rooms)
    assert spread.draws < 5


@pytest.mark.parametrize("name", VARIED)
def test_its_table_is_in_order(name: str) -> None:
    family = family_of(exercise(name))
    assert list(variant_doubts(family, must_vary(family, range(2)))) == []


@pytest.mark.parametrize("name", VARIED)
def test_a_room_is_an_exercise_like_any_other(name: str) -> None:
    """Marked from its bundle alone: full marks, nothing for nothing, and what is stated of each slip."""
    room = family_of(exercise(name)).room(2025)
    tried = trials(room.exercise, freeze(room.exercise))
    assert all(one.as_stated for one in tried)
    assert all(one.result.score < one.result.points for one in tried[1:])
    assert not re.search(r"[{}]", room.exercise.question)
