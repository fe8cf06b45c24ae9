"""Rooms made from an exercise: told apart, the same for a seed anywhere, and never another trainee's."""

import hashlib
import hmac
import json
import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from tests.coach.rooms import SOCKET, START, family, varied
from tests.exercise.answers import EASY, exercise, names_of
from zonelib.coach.shortest import shortest_length
from zonelib.coach.variants import seed_for, variant_of, vary, whose
from zonelib.exercise import AnswerRecord, Bundle, freeze, mark, read_bundle
from zonelib.exercise.trial import marked_answer
from zonelib.site.faults import FileFault

KEY = b"a key that only the tutor has"
CLASS = [f"C-{number:03}" for number in range(1, 31)]


def record(to: Bundle, answer: object, **changes: object) -> AnswerRecord:
    named = {"schema": 1, "exercise": to.exercise.id, "bundle": to.hash, "variant": to.variant}
    return AnswerRecord.model_validate(
        {**named, "revision": 1, "saved_at": "now", "answer": answer, **changes}
    )


def test_a_seed_is_a_keyed_hash_of_course_and_candidate() -> None:
    """The first eight bytes of HMAC-SHA256 (RFC 2104, grade P), over a text made by hand here."""
    digest = hmac.new(KEY, b"6:hw1-25C-014", hashlib.sha256).hexdigest()
    assert f"{seed_for(KEY, course='hw1-25', candidate='C-014'):016x}" == digest[:16]


def test_seeds_differ_by_key_course_and_candidate() -> None:
    seeds = {seed_for(KEY, course="hw1", candidate=one) for one in CLASS}
    seeds |= {
        seed_for(b"another", course="hw1", candidate="C-001"),
        seed_for(KEY, course="hw2", candidate="C-001"),
    }
    assert len(seeds) == 32
    assert seed_for(KEY, course="ab", candidate="c") != seed_for(KEY, course="a", candidate="bc")


def test_the_name_of_a_variant_tells_whose_it_is_to_one_who_has_the_key() -> None:
    seed = seed_for(KEY, course="hw1", candidate="C-007")
    assert whose(variant_of(seed), KEY, course="hw1", candidates=CLASS) == "C-007"
    assert whose(variant_of(seed), KEY, course="hw2", candidates=CLASS) is None


def test_a_name_does_not_tell_the_seed() -> None:
    """Neighbouring seeds have names that share nothing: of ten digits fewer than six agree, by place."""
    names = [variant_of(seed) for seed in range(200)]
    assert len(set(names)) == 200
    assert all(len(name) == 10 for name in names)
    assert all(sum(map(str.__eq__, *pair)) < 6 for pair in pairwise(names))


@pytest.mark.parametrize("seed", [-1, 2**64])
def test_a_seed_out_of_range_is_told(seed: int) -> None:
    with pytest.raises(
        FileFault, match=f"seed: found {seed}; allowed: a whole number from 0 to 18446744073709551615"
    ):
        vary(varied(), seed)


def test_the_same_seed_gives_the_same_room_in_another_process() -> None:
    """Python shuffles its sets anew in each process unless told otherwise: so it is told two ways."""
    code = (
        "from zonelib.coach.variants import vary; from zonelib.exercise import *;"
        f"print(freeze(vary(read_exercise(bank_path('{EASY}')), 20251125)).hash)"
    )
    here = freeze(vary(exercise(EASY), 20251125)).hash
    for seed in ("1", "2"):
        done = subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert done.stdout.strip() == here


def test_a_room_has_its_name_in_bundle_and_file(tmp_path: Path) -> None:
    room = vary(varied(), 171)
    bundle = freeze(room)
    name = variant_of(171)
    assert room.variant == bundle.variant == name
    assert bundle.write(tmp_path).name == f"bedroom-drop.{name}.bundle.json"
    assert read_bundle(tmp_path / f"bedroom-drop.{name}.bundle.json").variant == name
    assert room.variants is None


def test_a_bundle_tells_neither_answers_nor_the_rooms_of_others() -> None:
    for bundle in (freeze(exercise(EASY)), freeze(vary(exercise(EASY), 5))):
        assert not {"model", "wrong", "variants"} & set(bundle.data["exercise"])
        assert "sets" not in bundle.text


def test_the_plain_exercise_is_frozen_as_if_it_had_no_rooms() -> None:
    plain = exercise(EASY)
    assert plain.variants
    bundle = freeze(plain)
    assert bundle.hash == freeze(plain.model_copy(update={"variants": None})).hash
    assert bundle.variant is None
    assert "variant" not in bundle.data["exercise"]


def test_an_answer_to_another_trainees_room_is_not_judged() -> None:
    ours, theirs = (vary(exercise(EASY), seed_for(KEY, course="hw1", candidate=one)) for one in CLASS[:2])
    bundle, other = freeze(ours), freeze(theirs)
    assert mark(other, record(other, theirs.model)).score == 10
    result = mark(bundle, record(other, theirs.model))
    assert (result.status, result.score) == ("other-bundle", 0)
    theirs_is, ours_is = f"variant {other.variant} of the exercise", f"this is variant {bundle.variant}"
    assert result.note == f"This answer belongs to {theirs_is}, and {ours_is}. So it is not judged."
    assert all(one.reason == result.note for one in result.criteria)


def test_a_room_named_falsely_is_not_judged_either() -> None:
    bundle = freeze(vary(exercise(EASY), 1))
    result = mark(bundle, record(bundle, {}, variant="0000000002"))
    assert "belongs to variant 0000000002" in result.note


def test_the_plain_form_and_a_room_are_told_apart() -> None:
    plain, room = freeze(exercise(EASY)), freeze(vary(exercise(EASY), 1))
    name = variant_of(1)
    told = mark(room, record(plain, {})).note, mark(plain, record(room, {})).note
    assert f"to the plain form of the exercise, and this is variant {name}." in told[0]
    assert f"to variant {name} of the exercise, and this is the plain form." in told[1]


def test_an_older_version_of_the_same_room_is_told_as_such() -> None:
    bundle = freeze(vary(exercise(EASY), 1))
    assert "another version of the exercise" in mark(bundle, record(bundle, {}, bundle="0" * 64)).note


def test_question_and_answers_follow_the_drawn_numbers() -> None:
    """Worked by hand: start and socket are drawn; the model answer goes down at the socket's middle."""
    room = vary(varied(draw={"start": START, "socket": SOCKET}), 12)
    start, socket = room.route.start[0], room.case["walls"][0]["accessories"][0]["x"]  # type: ignore[attr-defined]
    assert (start, socket) != (700, 1250)
    assert f"at point a, {start:g} mm from the left." in room.question
    assert room.model["points"] == [[start, 2400], [start, 2330], [socket, 2330], [socket, 450]]
    assert room.wrong[1]["answer"]["points"] == [[start, 2400], [socket, 450]]
    assert [one["marks"] for one in room.wrong] == [
        round(marked_answer(freeze(room), one["answer"]).score, 1) for one in room.wrong
    ]


def test_things_that_change_places_are_drawn_again() -> None:
    """The socket may be drawn at either side of the start; only rooms with it on the right are taken."""
    rooms = [
        family(draw={"socket": {"from": 300, "to": 1700, "step": 10, "sets": ["S1.x"]}}).room(seed)
        for seed in range(8)
    ]
    assert all(room.exercise.case["walls"][0]["accessories"][0]["x"] > 700 for room in rooms)
    assert {why for room in rooms for why in room.refused} == {"things change places"}


def test_names_can_be_drawn_too() -> None:
    """In a metal frame another rule bites, which the plain exercise does not know: so it is never taken."""
    build = {"values": ["timber-stud", "metal-stud", "masonry"], "sets": ["W1.build"]}
    rooms = [family(draw={"build": build, "start": START}).room(seed) for seed in range(6)]
    assert {room.exercise.case["walls"][0]["build"] for room in rooms} == {"timber-stud"}
    assert {why for room in rooms for why in room.refused} == {"other rules apply"}


@pytest.mark.parametrize("name", names_of("route"))
def test_the_length_criterion_rests_on_the_solvers_shortest_run(name: str) -> None:
    bundle = freeze(exercise(name))
    found = shortest_length(bundle)
    assert found is not None
    assert bundle.data["shortest"] == pytest.approx(found, abs=1.0)


def test_a_room_states_the_solvers_length_for_itself() -> None:
    bundle = freeze(vary(exercise(EASY), 3))
    assert bundle.data["shortest"] == shortest_length(bundle) != freeze(exercise(EASY)).data["shortest"]


def test_without_a_stated_length_the_model_answers_counts() -> None:
    plain = exercise(EASY)
    task = plain.route.model_copy(update={"shortest": None})  # type: ignore[attr-defined]
    assert freeze(plain.model_copy(update={"route": task})).data["shortest"] == 2500.0


def test_a_bundle_of_a_room_can_be_read_as_json() -> None:
    data = json.loads(freeze(vary(exercise(EASY), 4)).text)
    assert data["exercise"]["variant"] == variant_of(4)
