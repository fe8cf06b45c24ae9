"""Rooms of every exercise of the bank that has some: solvable, none alike, as hard as the exercise.

A sample, seeds 0 to 2 of each. ``python -m tests.coach.variants_spread 1000`` goes through 1,000 of each, as
docs/variants.md tells. The first of the sample is marked as a trainee's would be, from its bundle alone.
"""

import re

import pytest

from tests.coach.variants_spread import measured, varied
from tests.exercise.answers import NAMES, exercise
from zonelib.coach.variants.checking import must_vary, variant_doubts
from zonelib.coach.variants.vary import Room, family_of
from zonelib.exercise import freeze
from zonelib.exercise.trial import trials

VARIED = varied()
SAMPLE = range(3)


def test_all_exercises_vary_but_those_that_show_nothing() -> None:
    """What a tutor asks in words alone has no measure that could differ."""
    in_words = {name for name in NAMES if not {"walls", "rooms", "joists"} & set(exercise(name).case)}
    assert in_words == {"landing-boards-up", "loft-which-members", "porch-what-to-say"}
    assert set(NAMES) - set(VARIED) == in_words


@pytest.mark.parametrize("name", VARIED)
def test_rooms_are_solvable_unlike_and_as_hard_and_their_texts_say_what_is_so(name: str) -> None:
    family = family_of(exercise(name))
    rooms = must_vary(family, SAMPLE)
    spread = measured(family, rooms)
    assert (spread.unsolved, spread.alike) == (0, 0)
    assert {one.traps for one in spread.rooms} == {spread.plain.traps}
    assert {one.legs for one in spread.rooms} == {spread.plain.legs}
    assert all(0.5 * spread.plain.margin <= one.margin + 0.1 for one in spread.rooms)
    assert all(one.margin <= 2 * spread.plain.margin + 0.1 for one in spread.rooms)
    assert spread.draws < 5
    assert list(variant_doubts(family, rooms)) == []
    assert_like_any_other(rooms[0])


def assert_like_any_other(room: Room) -> None:
    """Check that it earns full marks, nothing for nothing, and what it states of each slip."""
    tried = trials(room.exercise, freeze(room.exercise))
    assert all(one.as_stated for one in tried)
    assert all(one.result.score < one.result.points for one in tried[1:])
    assert not re.search(r"[{}]", room.exercise.question)
