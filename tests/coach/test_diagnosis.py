"""Misconceptions: each lets its own trap pass; they are found in those who hold them, and in nobody else."""

import random
from typing import Any

import pytest

from tests.coach.probes import TRAPS, alone, choice, probes
from tests.coach.stakes import differences
from tests.coach.trainees import Score, answered, shown, simulated
from tests.exercise.answers import bundle, exercise, marked
from tests.rules.cases import accessory
from tests.rules.rooms import BEHIND, case_of, own, room, round_room
from zonelib.coach.diagnosis.changes import CHANGES
from zonelib.coach.diagnosis.diagnose import Diagnosis, Sample, diagnose
from zonelib.coach.diagnosis.excuses import EXCUSES
from zonelib.coach.diagnosis.lens import NOTHING, Lens
from zonelib.coach.diagnosis.misconception import library
from zonelib.coach.diagnosis.redrawn import REDRAWN
from zonelib.coach.diagnosis.telling import told_apart, typical_answers


def of_one(name: str, answer: dict[str, Any]) -> Diagnosis:
    """Diagnose one answer to an exercise of the bank."""
    lens = Lens(bundle(name))
    return diagnose([Sample(lens, answer, typical_answers(lens, exercise(name)))])


def names(found: Diagnosis) -> list[str]:
    return [one.id for one in found.found]


def test_the_library_holds_fifteen_and_more_and_each_changes_something() -> None:
    assert len(library()) >= 15
    for one in library().values():
        assert one.set or one.drop or one.zones or one.readings or one.change or one.redraw
    assert {one.change for one in library().values()} - {""} == set(CHANGES)
    assert {one.redraw for one in library().values()} - {""} == set(REDRAWN)
    assert {one.excuses for one in library().values()} - {""} == set(EXCUSES)
    assert len({one.words for one in library().values()}) == len(library())


@pytest.mark.parametrize("name", TRAPS)
def test_a_trap_is_seen_through_by_the_rules_and_caught_by_its_misconception(name: str) -> None:
    """R1 passes always, and R2 is the trap; depth from the brick bars a run that passes."""
    lens = Lens(alone(name))
    sound, taken = lens.key(NOTHING), lens.key(frozenset({name}))
    assert ("R2" in sound) == (name == "depth-from-brick")
    assert set(sound) ^ set(taken) == {"R2"}


@pytest.mark.parametrize(
    ("exercise_name", "at", "said"),
    [
        ("bedroom-zones", 2, ["floor-band"]),
        ("bedroom-zones", 0, ["through-openings"]),
        ("landing-joist", 1, ["hole-anywhere"]),
        ("landing-joist", 2, ["holes-close"]),
        ("bathroom-joist", 0, ["rcd-covers-joists"]),
        ("bathroom-joist", 2, ["notch-deep"]),
        ("bathroom-joist", 3, ["notch-below"]),
        ("utility-deepest-chase", 1, ["plaster-in-leaf"]),
        ("utility-deepest-chase", 0, []),
    ],
)
def test_typical_answers_of_the_bank(exercise_name: str, at: int, said: list[str]) -> None:
    answer = exercise(exercise_name).wrong[at]["answer"]
    before = marked(exercise_name, answer).score
    assert names(of_one(exercise_name, answer)) == said
    assert marked(exercise_name, answer).score == before


def test_where_two_explain_equally_neither_is_said() -> None:
    """A run up beside a door: a zone round doors, or an RCD that is enough."""
    answer = exercise("living-room-corner").wrong[0]["answer"]
    found = of_one("living-room-corner", answer)
    assert found.found == ()
    assert {"door-border", "rcd-alone"} <= {one.id for one in found.undecided}


def test_a_right_answer_says_nothing() -> None:
    for name in ("bedroom-drop", "landing-joist", "bedroom-zones"):
        found = of_one(name, exercise(name).model)
        assert (found.found, found.explained, found.undecided) == ((), (), ())


def test_it_says_which_answers_it_explains() -> None:
    samples = answered(frozenset({"floor-band"}), random.Random(3), slips=0.0)
    found = diagnose(samples)
    assert names(found) == ["floor-band"]
    assert len(found.explained) == shown()["floor-band"] == 3
    assert all(not samples[at].lens.right(NOTHING, samples[at].answer) for at in found.explained)


def test_an_exercise_tells_what_it_can_tell_apart() -> None:
    lens, typical, _ = probes()[0]
    told = told_apart(lens, typical)
    assert len(set(told.values())) >= 8
    one = Lens(alone("rcd-delayed"))
    alike = told_apart(one, typical_answers(one, one.bundle.exercise))
    assert alike["rcd-delayed"] == alike["no-rcd"], "with no other trap about the RCD they look the same"
    assert set(shown()) >= set(told)


def test_those_who_hold_one_are_found_and_nobody_else_is_named() -> None:
    """One of each, with slips in one of ten answers; and eight who hold none."""
    score: Score = simulated(singly=1, pairs=0, right=8)
    held, said, right = (sum(one.values()) for one in (score.held, score.said, score.right))
    assert held == len(shown()) >= 30
    assert right >= 0.9 * held
    assert right >= 0.9 * said


def test_nobody_without_one_is_named() -> None:
    for seed in range(3):
        assert diagnose(answered(NOTHING, random.Random(seed))).found == ()


@pytest.mark.parametrize(
    "name", ["living-room-corner", "study-how-deep", "landing-joist", "loft-zones", "study-inspection"]
)
def test_what_is_told_without_trying_is_what_trying_tells(name: str) -> None:
    """All exercises and random answers: `python -m tests.coach.stakes`."""
    assert [one for one in differences(name, answers=2) if one] == []


LIT = frozenset({"ceiling-light"})


def lit_room(x: float) -> Lens:
    """Return a question on one run in a room, down its wall 2 at an x of the row, then level to a socket."""
    walls = [own(2, accessory("S1", 1000, 450))]
    run = round_room([(x, 2330), (x, 450), (4000, 450)], joins=["S1"])
    return Lens(choice(case_of(room(walls=walls), room("B", BEHIND), routes=[run])))


@pytest.mark.parametrize(("x", "taken"), [(5000, ["R1"]), (5140, ["R1"]), (5146, []), (4300, [])])
def test_in_a_room_the_ceilings_light_makes_a_band_down_the_middle_of_each_wall(
    x: float, taken: list[str]
) -> None:
    """Wall 2 is 4 m long from 3000 on: its middle is at 5000, and 150 mm to each side hold a cable of 10."""
    lens = lit_room(x)
    assert lens.key(NOTHING) == ()
    assert list(lens.key(LIT)) == taken


def test_the_light_of_the_room_behind_stands_on_the_rear() -> None:
    seen, plain = lit_room(5000).seen(LIT).case, lit_room(5000).bundle.case
    assert [wall.front.internal_corners for wall in seen.walls[:4]] == [
        (0.0, length / 2, length) for length in (3000.0, 4000.0, 3000.0, 4000.0)
    ]
    new = [set(seen.wall(name).rear.internal_corners) - set(plain.wall(name).rear.internal_corners)
           for name in ("A.1", "A.2", "B.4")]  # fmt: skip
    assert new == [set(), {1250.0}, {500.0}]
