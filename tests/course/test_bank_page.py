"""docs/bank.md is no older than the bank, and the bank reaches from first steps to an assessment."""

from collections import Counter

import pytest

from tests.course.bank_page import PAGE, page, told, written
from tests.exercise.answers import NAMES, exercise
from zonelib.exercise.kinds import NAMES as KINDS
from zonelib.rules.words import templates

WRITTEN = PAGE.read_text(encoding="utf-8")
RUN = "docs/bank.md is older than what it is made from; run: python -m tests.course.bank_page"
SAMPLE = NAMES[::9]
"""To work out all misconceptions takes half a minute; the command above does it."""

NOT_ASKED = {
    "depth-in-wall", "run-cover", "run-on-joist", "stud-cover", "stud-hole-edge", "stud-hole-size",
    "stud-notch-depth", "stud-notch-gap",
}  # fmt: skip
"""No kind asks for cables along timber or cuts in studs; a depth beyond what is offered is refused."""


def test_the_page_is_not_older_than_the_exercises() -> None:
    said = written(WRITTEN)
    assert page(lambda name: said.get(name, "")) == WRITTEN, RUN


@pytest.mark.parametrize("name", SAMPLE)
def test_what_it_says_of_misconceptions_is_so(name: str) -> None:
    assert written(WRITTEN)[name] == told(name), RUN


def test_the_bank_has_fifty_exercises_and_more_of_all_kinds_and_levels() -> None:
    assert len(NAMES) >= 50
    kinds = Counter(exercise(name).kind for name in NAMES)
    levels = Counter(exercise(name).difficulty for name in NAMES)
    assert {kind for kind in KINDS if kinds[kind] < 4} == set()
    assert {level for level in range(1, 6) if levels[level] < 4} == set()


def test_every_kind_has_a_first_step() -> None:
    assert {exercise(name).kind for name in NAMES if exercise(name).difficulty == 1} == set(KINDS)


def test_every_rule_that_a_kind_asks_for_is_what_some_exercise_is_about() -> None:
    aimed = {rule for name in NAMES for rule in exercise(name).aim}
    assert set(templates()) - aimed == NOT_ASKED


def test_no_two_exercises_ask_the_same() -> None:
    for part in ("title", "question"):
        assert len({getattr(exercise(name), part) for name in NAMES}) == len(NAMES)
