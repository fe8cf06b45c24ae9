"""Inspections: marking more than what fails never pays, nor does naming every clause for one stretch."""

import copy
import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, exercise, marked, model, names_of, scores
from zonelib.draw import svg
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.inspect.answer import InspectAnswer, canonical
from zonelib.exercise.kinds.inspect.targets import inspected, mends, route_length, targets
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.report import marked_scenes, result_text
from zonelib.exercise.trial import marked_answer
from zonelib.rules.engine import judge

NAMES = names_of("inspect")
WHOLE, CHASES = "dining-inspection", "study-inspection"
few = settings(max_examples=15, deadline=None)
mark_ = st.none() | st.floats(-500, 5000) | st.sampled_from([0.0, 440.0, 1560.0, 1e7, -1e7, 1e-300])
stretches = st.lists(
    st.fixed_dictionaries(
        {"route": st.sampled_from(["R1", "R2", "R3"])},
        optional={
            "from": mark_,
            "to": mark_,
            "clause": st.sampled_from(["522.6.202", "415.1.1"]),
            "remedy": st.sampled_from(["lay-level", "rcd-origin", "round", "shallow"]),
            "why": st.sampled_from(["not-expected", "not-cut-off"]),
        },
    ),
    max_size=8,
)
passes = st.dictionaries(st.sampled_from(["R1", "R2", "R3"]), st.booleans())


@few
@given(st.sampled_from(NAMES), stretches, passes)
def test_no_inspection_whatever_makes_marking_stumble(name: str, stretches: Any, passes: Any) -> None:
    result = marked(name, {"stretches": stretches, "passes": passes})
    check_promises(result)
    assert result_text(bundle(name), result)
    for scene in marked_scenes(bundle(name), result):
        assert svg(scene)


@few
@given(st.recursive(st.none() | st.booleans() | st.text(max_size=4), st.lists, max_leaves=6))
def test_what_is_no_inspection_earns_nothing_with_a_reason(anything: Any) -> None:
    answer = json.loads(json.dumps({"stretches": anything, "passes": anything}))
    check_promises(marked(WHOLE, answer))
    check_promises(marked(WHOLE, {"stretches": [{"route": "R1", "from": answer["passes"]}]}))


def with_stretches(name: str, change: Any) -> Answer:
    return {**model(name), "stretches": change(model(name)["stretches"])}


def halves(stretches: list[Any]) -> list[Any]:
    found = []
    for one in stretches:
        if "from" in one:
            middle = (one["from"] + one["to"]) / 2
            found += [{**one, "to": middle}, {**one, "from": middle}]
        else:
            found.append(one)
    return found


STYLES: dict[str, Any] = {
    "the other way round": lambda ones: ones[::-1],
    "each twice": lambda ones: [*ones, *ones],
    "from the far end": lambda ones: [
        {**one, "from": one["to"], "to": one["from"]} if "from" in one else one for one in ones
    ],
    "in halves": halves,
    "overlapping": lambda ones: [*ones, *({**one, "to": one["to"] - 50} for one in ones if "to" in one)],
}


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("name", NAMES)
def test_the_way_of_marking_changes_no_mark(name: str, style: str) -> None:
    plain, styled = model(name), with_stretches(name, STYLES[style])
    assert scores(marked(name, styled)) == scores(marked(name, plain))
    part = {**plain, "stretches": plain["stretches"][:1]}
    assert scores(marked(name, {**part, "stretches": STYLES[style](part["stretches"])})) == scores(
        marked(name, part)
    )


@pytest.mark.parametrize("name", NAMES)
def test_the_canonical_form_forgets_order_direction_and_repeats(name: str) -> None:
    forms = {
        str(canonical(InspectAnswer.model_validate(with_stretches(name, STYLES[style]))))
        for style in ("the other way round", "each twice", "from the far end")
    }
    assert forms == {str(canonical(InspectAnswer.model_validate(model(name))))}


def everything(name: str, *, wholes: bool) -> list[Answer]:
    """Mark each cable from end to end, once with each clause."""
    task, case = bundle(name).exercise.task_as(InspectTask), bundle(name).case
    spans = [{"route": one.id, "from": 0, "to": route_length(one)} for one in inspected(case, task)]
    ones = [*spans, *({"route": one["route"]} for one in spans)] if wholes else spans
    return [{**one, "clause": clause} for one in ones for clause in task.clauses]


@pytest.mark.parametrize("wholes", [True, False])
@pytest.mark.parametrize("name", NAMES)
def test_every_stretch_marked_as_failing_earns_nothing(name: str, *, wholes: bool) -> None:
    nothing: list[Answer] = []
    for more in (nothing, model(name)["stretches"]):
        answer = {**model(name), "stretches": [*everything(name, wholes=wholes), *more]}
        assert marked(name, answer).score == 0


@pytest.mark.parametrize("name", NAMES)
def test_naming_every_clause_for_a_stretch_does_not_pay(name: str) -> None:
    clauses = exercise(name).task_as(InspectTask).clauses
    hedged = with_stretches(
        name, lambda ones: [{**one, "clause": clause} for one in ones for clause in clauses]
    )
    assert scores(marked(name, hedged))["clause"] == 0
    assert scores(marked(name, hedged))["remedy"] == 0


@pytest.mark.parametrize("name", NAMES)
def test_the_questions_alone_earn_nothing(name: str) -> None:
    for said in (model(name)["passes"], dict.fromkeys(model(name)["passes"], False)):
        result = marked(name, {"passes": said})
        assert (result.status, result.score) == ("marked", 0.0)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_said_is_an_empty_answer(name: str) -> None:
    empty: list[Answer] = [{}, {"stretches": [], "passes": {}}]
    assert [(marked(name, one).status, marked(name, one).score) for one in empty] == [("empty", 0.0)] * 2


@pytest.mark.parametrize(("out", "met"), [(0, True), (59, True), (200, False)])
def test_ends_within_the_slack_lose_nothing(out: float, met: bool) -> None:
    for sign in (1, -1):
        ends = {"from": 438 - sign * out, "to": 1562 + sign * out}
        longer = with_stretches(WHOLE, lambda ones, ends=ends: [{**ones[0], **ends}, ones[1]])
        assert (scores(marked(WHOLE, longer))["stretches"] == 4) is met


@pytest.mark.parametrize("name", NAMES)
def test_where_nothing_fails_saying_so_earns_all_marks_and_marking_a_stretch_none(name: str) -> None:
    """No exercise is so, but somebody may take the rules so: then it is all or nothing."""
    data = copy.deepcopy(bundle(name).data)
    case = data["exercise"]["case"]
    for route in case["routes"]:
        route |= {"supply": "selv", "depth": 60}
    for wall in case["walls"]:
        wall |= {"build": "timber-stud", "thickness": 200}
        wall.pop("leaf", None)
    eased, routes = Bundle(data), [route["id"] for route in case["routes"]]
    assert eased.verdict.passed
    asked = [one.id for one in inspected(eased.case, eased.exercise.task_as(InspectTask))]
    result = marked_answer(eased, {"passes": dict.fromkeys(asked, True)})
    assert (result.status, result.score) == ("marked", result.points)
    assert marked_answer(eased, {"stretches": [{"route": routes[0]}]}).score == 0.0


def test_a_guess_of_every_second_cable_is_worth_nothing() -> None:
    same = {"R1": False, "R2": False, "R3": False}
    assert scores(marked(WHOLE, {**model(WHOLE), "passes": same}))["new-work"] == pytest.approx(
        1 / 3, abs=0.001
    )
    other = {name: not said for name, said in model(WHOLE)["passes"].items()}
    assert scores(marked(WHOLE, {**model(WHOLE), "passes": other}))["new-work"] == 0


@pytest.mark.parametrize(
    ("name", "rule", "right"),
    [
        (WHOLE, "wall-zone", {"lay-level"}),
        (WHOLE, "wall-rcd", {"rcd-origin"}),
        (CHASES, "chase-depth", {"shallow"}),
        (CHASES, "wall-zone", {"round", "conduit-slant"}),
        (CHASES, "chase-line", {"round"}),
    ],
)
def test_a_remedy_is_right_where_the_engine_says_so(name: str, rule: str, right: set[str]) -> None:
    task, case = exercise(name).task_as(InspectTask), bundle(name).case
    found = targets(judge(case, bundle(name).pack), inspected(case, task), task)
    target = next(one for one in found if one.rule == rule)
    assert {one.id for one in task.remedies if mends(bundle(name), one, target)} == right


def test_another_clause_that_the_exercise_takes_counts_as_well() -> None:
    for clause, gained in (("522.6.202", 2), ("415.1.1", 2), ("522.6.201", 1)):
        chosen = with_stretches(WHOLE, lambda ones, clause=clause: [ones[0], {**ones[1], "clause": clause}])
        assert scores(marked(WHOLE, chosen))["clause"] == gained


@pytest.mark.parametrize("name", NAMES)
def test_each_stretch_and_what_is_lacking_is_told_under_its_number(name: str) -> None:
    bare = with_stretches(
        name, lambda ones: [{**one, "clause": None, "remedy": None, "why": None} for one in ones]
    )
    result = marked(name, {**bare, "passes": {}})
    told = [one for one in result.messages if one.n]
    assert len(told) == len(model(name)["stretches"])
    twice = [one for one in told if "mark it once more" in one.text]
    assert len(twice) == len(told) - len({one["route"] for one in model(name)["stretches"]})
    chosen = [one.text for one in told if one not in twice]
    assert all("No remedy is chosen." in text and "The clause is" in text for text in chosen)
    scenes = marked_scenes(bundle(name), result)
    assert {one.n for one in told} <= {
        int(t.text) for s in scenes for t in s.texts if t.css.startswith("text-number")
    }
    assert sum("as new work" in one.text for one in result.messages) == len(model(name)["passes"])


def test_what_passes_and_is_marked_is_numbered_after_the_findings() -> None:
    more = with_stretches(
        WHOLE, lambda ones: [*ones, {"route": "R1", "from": 300, "to": 700}, {"route": "R1"}]
    )
    result = marked(WHOLE, more)
    texts = {one.n: one.text for one in result.messages if one.title == "Marked, though it passes"}
    assert texts[3] == "R1 passes from 300 to 700 mm, and is marked there."
    assert texts[0] == "R1 as a whole meets the rules for a whole cable."


@pytest.mark.parametrize(
    ("answer", "note"),
    [
        ({"stretches": [{"route": "R9"}]}, 'stretches.route: found "R9"; allowed: R1, R2, R3'),
        (
            {"stretches": [{"route": "R1", "clause": "1.2"}]},
            'stretches.clause: found "1.2"; allowed: 522.6.201',
        ),
        (
            {"stretches": [{"route": "R1", "remedy": "glue"}]},
            'stretches.remedy: found "glue"; allowed: lay-level',
        ),
        ({"stretches": [{"route": "R1", "why": "x"}]}, 'stretches.why: found "x"; allowed: not-expected'),
        ({"passes": {"R9": True}}, 'passes: found "R9"'),
        ({"passes": {"R1": "yes"}}, "allowed: true or false"),
        ({"stretches": [{"route": "R1"}] * 61}, "at most 60 entries"),
        ({"stretches": [{"route": "R1", "from": "x"}]}, "allowed: a number"),
    ],
)
def test_what_cannot_be_read_is_told(answer: Answer, note: str) -> None:
    result = marked(WHOLE, answer)
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert note in result.note
