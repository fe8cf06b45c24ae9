"""Choices for a given route: what makes it acceptable earns; what is idle or needless does not."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, exercise, marked, model, names_of, scores
from tests.exercise.making import answered, cable, frozen, stated
from zonelib.exercise.kinds.protect.answer import ProtectAnswer, canonical
from zonelib.exercise.report import marked_scenes, result_text

NAMES = names_of("protect")
STORE, STUDY = "store-given-run", "study-how-deep"
CONDUIT = "earthed-steel-conduit"
few = settings(max_examples=40)
coverings = st.sampled_from(["none", CONDUIT, "plastic-conduit", "armoured-cable", "tape", ""])
rcds = st.none() | st.fixed_dictionaries(
    {"ma": st.floats(1, 500)},
    optional={"delayed": st.booleans(), "at": st.sampled_from(["origin", "outlet"])},
)
answers = st.fixed_dictionaries(
    {},
    optional={
        "depth": st.lists(st.floats(-20, 140) | st.sampled_from([0, 13, 50, 1e7]), max_size=3),
        "protection": st.lists(coverings, max_size=3),
        "rcd": rcds,
    },
)


@few
@given(st.sampled_from(NAMES), answers)
def test_no_choice_whatever_makes_marking_stumble(name: str, answer: Answer) -> None:
    result = marked(name, answer)
    check_promises(result)
    assert result_text(bundle(name), result)


@few
@given(st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=4), st.lists, max_leaves=6))
def test_what_is_no_choice_earns_nothing_with_a_reason(part: Any) -> None:
    text = json.dumps({"depth": part, "protection": part, "rcd": part})
    if "NaN" not in text and "Infinity" not in text:
        check_promises(marked(STORE, json.loads(text)))


@pytest.mark.parametrize("name", NAMES)
def test_full_marks_only_where_no_rule_fails(name: str) -> None:
    counts = len(exercise(name).model["depth"])
    for depth in (5, 20, 45, 50, 60):
        for covering in ("none", CONDUIT):
            for rcd in ({"ma": 30}, {"ma": 100}, None):
                choice = {"depth": [depth] * counts, "protection": [covering] * counts, "rcd": rcd}
                result = marked(name, choice)
                check_promises(result)
                assert result.verdict is not None
                assert result.verdict.passed or result.score < result.points


@pytest.mark.parametrize(
    "style",
    [
        lambda one: {**one, "depth": [float(depth) for depth in one["depth"]]},
        lambda one: {
            **one,
            **({"rcd": {"at": "origin", "delayed": False, **one["rcd"]}} if "rcd" in one else {}),
        },
    ],
)
@pytest.mark.parametrize("name", NAMES)
def test_the_way_of_writing_changes_no_mark(name: str, style: Any) -> None:
    assert scores(marked(name, style(model(name)))) == scores(marked(name, model(name)))
    written = (ProtectAnswer.model_validate(one) for one in (model(name), style(model(name))))
    assert len({repr(canonical(one)) for one in written}) == 1


def test_a_point_in_mid_run_of_the_given_route_changes_no_mark(tmp_path: Path) -> None:
    task = {key: value for key, value in cable().items() if key not in ("id", "rcd")}
    whole = {"depth": [20], "protection": ["none"], "rcd": {"ma": 30}}
    bent = {"points": [[1200, 450], [1200, 900], [1200, 2400]]}
    twice = {"depth": [20, 20], "protection": ["none"] * 2, "rcd": {"ma": 30}}
    plain = answered(frozen(tmp_path, stated("protect", task, model=whole)), whole)
    split = answered(frozen(tmp_path, stated("protect", {**task, **bent}, model=twice)), twice)
    assert scores(split) == scores(plain) == {"place": 4, "rcd": 3, "chase": 2, "covering": 1}


# A chase in the 100 mm leaf: depth less 13 mm of plaster plus 20 mm of conduit; at most 33.3 mm upright.
@pytest.mark.parametrize(
    ("leg_1", "leg_2", "chase"), [(26, 15, 2.0), (27, 15, 0.0), (0, 15, 2.0), (26, 23, 2.0), (26, 24, 0.0)]
)
def test_a_chase_makes_some_depths_impossible(leg_1: float, leg_2: float, chase: float) -> None:
    choice = {"depth": [leg_1, leg_2], "protection": [CONDUIT, "none"], "rcd": {"ma": 30}}
    result = marked(STORE, choice)
    assert scores(result)["chase"] == chase
    assert scores(result)["place"] == 4


def test_leaving_all_as_it_is_given_earns_nothing_and_says_why() -> None:
    result = marked(STUDY, {"depth": [50], "protection": ["none"]})
    assert (result.status, result.score) == ("marked", 0.0)
    assert {one.reason for one in result.criteria} == {
        "All is left as it was given, and so it does not pass: outside the zones."
    }


def test_a_given_route_that_passes_may_be_left_as_it_is(tmp_path: Path) -> None:
    task = {key: value for key, value in cable().items() if key != "id"}
    nothing_to_do = {"depth": [20], "protection": ["none"], "rcd": {"ma": 30}}
    made = frozen(tmp_path, stated("protect", task, model=nothing_to_do))
    assert answered(made, nothing_to_do).score == 10


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        ({"depth": [80, 15]}, "A depth of 80 mm is not on offer here. Choose 0 to 70 mm."),
        ({"protection": ["armoured-cable"] * 2}, "The covering armoured-cable is not on offer here."),
    ],
)
def test_what_is_not_on_offer_earns_nothing(answer: Answer, reason: str) -> None:
    result = marked(STORE, {**model(STORE), **answer})
    assert result.score == 0.0
    assert all(one.reason.startswith(reason) for one in result.criteria)


@pytest.mark.parametrize(
    ("answer", "note"),
    [
        ({"depth": [15]}, "depth: found 1; allowed: one for all, or one per leg (2)"),
        ({"points": [[0, 0], [1, 1]]}, "points: found a key that is not known here"),
        ({"depth": [15, 15], "supply": "selv"}, "supply: found a key that is not known here"),
    ],
)
def test_what_is_no_answer_is_refused_in_words(answer: Answer, note: str) -> None:
    result = marked(STORE, answer)
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert note in result.note


def test_covering_everything_to_be_safe_costs_the_mark_for_covering() -> None:
    # Bare, leg 2 lies in the zone of S1: with an RCD that counts, it needs nothing more.
    result = marked(STORE, {"depth": [9, 9], "protection": [CONDUIT] * 2, "rcd": {"ma": 30}})
    assert scores(result) == {"place": 4, "rcd": 3, "chase": 2, "covering": 0}
    assert "leg 2 (b to c) would pass as well" in result.criteria[-1].reason


def test_leaving_the_rcd_out_makes_no_covering_needed() -> None:
    result = marked(STORE, {"depth": [9, 9], "protection": [CONDUIT] * 2})
    assert scores(result)["covering"] == 0


@pytest.mark.parametrize("name", NAMES)
def test_the_picture_numbers_what_the_messages_tell(name: str) -> None:
    for wrong in exercise(name).wrong:
        result = marked(name, wrong["answer"])
        shown = {one.n for scene in marked_scenes(bundle(name), result) for one in scene.shapes if one.n}
        assert shown == {one.n for one in result.messages if one.n}


@pytest.mark.parametrize("name", NAMES)
def test_the_question_s_picture_says_nothing_of_rules(name: str) -> None:
    (scene,) = bundle(name).kind.blank(bundle(name))
    classes = {one.css for one in scene.shapes}
    assert "item" in classes
    assert not classes & {"cable", "cable-deep", "cable-fails", "zone", "other-zone"}


@pytest.mark.parametrize(
    ("task", "fault"),
    [
        ({"points": [[1200, 450], [1200, 2600]]}, "protect.points: found off the wall"),
        ({"points": [[300, 450], [300, 2400]]}, "protect.points: found does not reach S1"),
        ({"wall": "W2"}, 'protect.wall: found "W2"; allowed: W1'),
        ({"room": "bed"}, "protect: found both wall and room; allowed: one of wall and room"),
        ({"protection": "none", "protections": ["tape"]}, 'protect.protections: found "tape"'),
    ],
)
def test_a_task_that_does_not_fit_is_refused_in_words(tmp_path: Path, task: Any, fault: str) -> None:
    given = {key: value for key, value in cable().items() if key != "id"}
    data = stated("protect", {**given, **task}, model={"depth": [20], "protection": ["none"]})
    with pytest.raises(ValueError, match=r"protect") as caught:
        frozen(tmp_path, data)
    assert fault in str(caught.value)
