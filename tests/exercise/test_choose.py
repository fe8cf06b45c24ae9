"""Choices: worked out by the engine or stated by the tutor, shuffled, and fairly marked."""

import json
from itertools import combinations
from pathlib import Path
from typing import Any
from unittest.mock import Mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import bundle, check_promises, exercise, marked, model, names_of, scores
from tests.exercise.making import Data, answered, cable, case, frozen, stated
from zonelib.exercise import freeze
from zonelib.exercise.kinds.choose.marking import choices
from zonelib.exercise.report import marked_scenes, result_text
from zonelib.exercise.trial import marked_answer
from zonelib.rules import engine

NAMES = names_of("choose")
SCREWS, SAY = "landing-which-screws", "porch-what-to-say"
few = settings(max_examples=40)
ids = st.sampled_from(["A", "B", "C", "D", "F1", "F2", "F5", "", "a"]) | st.text(max_size=4)


@few
@given(st.sampled_from(NAMES), st.lists(ids, max_size=8))
def test_no_ticks_whatever_make_marking_stumble(name: str, chosen: list[str]) -> None:
    result = marked(name, {"chosen": chosen})
    check_promises(result)
    assert result_text(bundle(name), result)


@few
@given(st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=4), st.lists, max_leaves=6))
def test_what_is_no_tick_earns_nothing_with_a_reason(chosen: Any) -> None:
    text = json.dumps({"chosen": chosen})
    if "NaN" not in text and "Infinity" not in text:
        check_promises(marked(SAY, json.loads(text)))


@pytest.mark.parametrize("name", NAMES)
def test_ticking_everything_earns_nothing(name: str) -> None:
    every = [one.id for one in choices(bundle(name))]
    assert marked(name, {"chosen": every}).score == 0
    almost = [set(every) - {one.id} for one in choices(bundle(name)) if not one.right]
    assert all(marked(name, {"chosen": sorted(one)}).score <= 0.5 * 5 for one in almost)


@pytest.mark.parametrize("name", NAMES)
def test_full_marks_for_exactly_one_set_of_ticks(name: str) -> None:
    every = [one.id for one in choices(bundle(name))]
    subsets = [set(one) for size in range(len(every) + 1) for one in combinations(every, size)]
    full = [one for one in subsets if marked(name, {"chosen": sorted(one)}).score == 5]
    assert full == [set(model(name)["chosen"])]


@pytest.mark.parametrize("name", NAMES)
def test_order_and_double_ticks_change_no_mark(name: str) -> None:
    ticks = model(name)["chosen"]
    assert scores(marked(name, {"chosen": [*ticks[::-1], *ticks]})) == scores(marked(name, {"chosen": ticks}))


def test_what_is_missed_is_counted_and_not_named() -> None:
    result = marked(SAY, {"chosen": ["A", "E"]})
    assert result.criteria[0].reason == "2 of 3 right ones are ticked"
    assert "C" not in "".join(one.title for one in result.messages)


def test_a_stray_tick_is_told_with_its_reason() -> None:
    result = marked(SCREWS, {"chosen": ["F2", "F4", "F5"]})
    (message,) = result.messages
    assert message.title == "F4 is not right"
    assert "straight above and below S2" in message.text


def test_a_class_is_marked_on_one_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the engine finds hangs on the question alone, so it is asked once and not for each answer."""
    one, judged = freeze(exercise("hall-find-the-cable")), Mock(wraps=engine.judge)
    monkeypatch.setattr("zonelib.exercise.bundle.judge", judged)
    monkeypatch.setattr("zonelib.exercise.kinds.choose.options.judge", judged)
    for ticks in (["R1", "R4"], ["R2"], ["R1", "R3"], []):
        marked_answer(one, {"chosen": ticks})
    assert judged.call_count == 1


def test_a_choice_that_is_none_of_the_question_s_is_refused() -> None:
    result = marked(SCREWS, {"chosen": ["F2", "F9"]})
    assert result.score == 0
    assert result.criteria[0].reason.startswith('"F9" is not among the choices. Choose from: ')


# --- the order of the choices ------------------------------------------------------------------

LETTERS = "ABCDEFGH"


def own(*, seed: int = 1, letters: str = LETTERS, **parts: Any) -> Data:
    every = [
        {"id": one, "words": f"Choice {one}", "right": one in "AB", "why": f"Why {one}."} for one in letters
    ]
    task = {"ask": "own", "source": "a book", "seed": seed, "choices": every, **parts}
    return stated("choose", task, model={"chosen": ["A", "B"]})


def order(folder: Path, **parts: Any) -> str:
    return "".join(one.id for one in choices(frozen(folder, own(**parts))))


def test_a_seed_gives_one_order_wherever_it_is_drawn(tmp_path: Path) -> None:
    assert order(tmp_path) == order(tmp_path) == order(tmp_path, letters=LETTERS[::-1])
    # A regression lock: the order is part of what a class has before it.
    assert order(tmp_path, seed=7) == "AFCBGDEH"


def test_seeds_shuffle(tmp_path: Path) -> None:
    orders = {order(tmp_path, seed=seed) for seed in range(20)}
    assert len(orders) == 20
    assert len({one[0] for one in orders}) > 4


def test_without_a_seed_the_name_gives_one_and_the_bundle_holds_it(tmp_path: Path) -> None:
    data = own()
    del data["choose"]["seed"]
    assert isinstance(frozen(tmp_path, data).data["seed"], int)


# --- one to be ticked --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chosen", "marks", "reason"),
    [
        (["A"], 5, "A: Why A"),
        (["C"], 0, "C is ticked and is not right"),
        (["A", "C"], 0, "2 are ticked. Tick one."),
        (list("ABCD"), 0, "4 are ticked. Tick one."),
    ],
)
def test_one_to_be_ticked(tmp_path: Path, chosen: list[str], marks: float, reason: str) -> None:
    data = own(pick="one", letters="ACDB")
    data["choose"]["choices"][-1]["right"] = False
    data["model"] = {"chosen": ["A"]}
    result = answered(frozen(tmp_path, data), {"chosen": chosen})
    assert (result.score, result.criteria[0].reason) == (marks, reason)


# --- what the engine works out -----------------------------------------------------------------

SLANT = {"points": [[1200, 450], [2400, 2100], [2400, 2400]]}
ROUTES = [cable("R1"), cable("R2", rcd=None), cable("R3", **SLANT), cable("R4", depth=60)]


def asked(folder: Path, ask: str, right: list[str], **task: Any) -> dict[str, bool]:
    parts = {"case": case(routes=ROUTES), "model": {"chosen": right}}
    made = frozen(folder, stated("choose", {"ask": ask, **task}, **parts))
    assert answered(made, {"chosen": right}).score == 5
    return {one.id: one.right for one in choices(made)}


def test_which_routes_pass(tmp_path: Path) -> None:
    # R4 is 60 mm deep and 140 - 60 - 6 = 74 mm from the rear: no face is concerned.
    right = asked(tmp_path, "passing-routes", ["R1", "R4"])
    assert right == {"R1": True, "R2": False, "R3": False, "R4": True}


def test_which_clause_stands_behind_a_failure(tmp_path: Path) -> None:
    found = asked(tmp_path, "clauses", ["522.6.202"], of="R3")
    assert [name for name, right in found.items() if right] == ["522.6.202"]
    assert len(found) == 4


def test_the_clause_on_rcds_is_no_choice_where_one_is_missing(tmp_path: Path) -> None:
    assert "415.1.1" not in asked(tmp_path, "clauses", ["522.6.202"], of="R2", most_others=20)
    assert "415.1.1" in asked(tmp_path, "clauses", ["522.6.202"], of="R3", most_others=20)


@pytest.mark.parametrize(
    ("depth", "right"),
    [(20, ["front"]), (49.9, ["front"]), (50, ["neither"]), (60, ["neither"]), (85, ["rear"])],
)
def test_which_face_is_concerned(tmp_path: Path, depth: float, right: list[str]) -> None:
    # A face is concerned at less than 50 mm; the rear is 140 - depth - 6 mm away (DESIGN 5.1).
    task = {"ask": "concerned-faces", "of": "R1"}
    parts = {"case": case(routes=[cable(depth=depth)]), "model": {"chosen": right}}
    assert answered(frozen(tmp_path, stated("choose", task, **parts)), {"chosen": right}).score == 5


def test_a_failing_route_that_was_ticked_shows_its_numbers_and_no_other(tmp_path: Path) -> None:
    parts = {"case": case(routes=ROUTES), "model": {"chosen": ["R1", "R4"]}}
    made = frozen(tmp_path, stated("choose", {"ask": "passing-routes"}, **parts))
    result = answered(made, {"chosen": ["R1", "R3"]})
    shown = {one.n for scene in marked_scenes(made, result) for one in scene.shapes if one.n}
    assert shown == {one.n for one in result.messages if one.n} == {1}
    assert [one.title for one in result.messages if one.n] == ["R3: outside the zones"]


def test_a_bundle_holds_no_key_where_the_engine_finds_it_and_the_tutor_s_where_not() -> None:
    assert "chosen" not in json.dumps(bundle(SCREWS).data["exercise"]["choose"])
    # The tutor's own key has to be there to mark by: only a server can keep it back.
    assert all("right" in one for one in bundle(SAY).data["exercise"]["choose"]["choices"])


# --- questions that cannot be asked ------------------------------------------------------------


def fixing(x: float, penetration: float) -> Data:
    return {
        "id": "F1",
        "wall": "W1",
        "face": "front",
        "x": x,
        "y": 1500,
        "penetration": penetration,
        "diameter": 5,
    }


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (own(source=" "), "choose.source: found none; allowed: where the key comes from"),
        (own(choices=[]), "choose.choices: found none; allowed: choices of your own"),
        (own(letters="AACD"), 'choose.choices.id: found "A" more than once; allowed: each id once'),
        (own(letters="AB"), "choose: found 2 right of 2 choices; allowed: at least one right and one other"),
        (own(pick="one"), 'choose.pick: found "one", and 2 of the choices are right'),
        (own(among=["A", "X"]), 'choose.among: found "X"; allowed: A, B, C'),
        (own(of="R1"), 'choose.of: found "R1"; allowed: nothing'),
        (
            stated("choose", {"ask": "clauses"}, case=case(routes=ROUTES)),
            'choose.of: found "nothing"; allowed: R1, R2, R3, R4',
        ),
        (
            stated(
                "choose", {"ask": "clauses", "of": "R3", "among": ["522.6.203"]}, case=case(routes=ROUTES)
            ),
            "choose.among: found a list without 522.6.202; allowed: one with every clause that fails",
        ),
        (
            stated("choose", {"ask": "safe-fixings"}, case=case(fixings=[fixing(600, 80)])),
            "choose: found F1, of which the engine says: ",
        ),
        (own() | {"model": {"chosen": ["Z"]}}, 'model.chosen: found "Z"; allowed: A, B'),
    ],
)
def test_a_question_that_cannot_be_asked_is_refused_in_words(tmp_path: Path, data: Data, fault: str) -> None:
    with pytest.raises(ValueError, match=r"allowed") as caught:
        frozen(tmp_path, data)
    assert fault in str(caught.value)
