"""Hung things: judged by what can be seen, each by itself, and a suggestion has always been judged."""

import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, exercise, marked, model, names_of, scores
from zonelib.draw import svg
from zonelib.exercise import freeze
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer, canonical
from zonelib.exercise.kinds.fixings.task import FixingsTask
from zonelib.exercise.report import marked_scenes, result_text

NAMES = names_of("fixings")
KITCHEN, HALL = "kitchen-cupboard", "hall-pictures"
few = settings(max_examples=25, deadline=None)
number = st.floats(-500, 5000) | st.sampled_from([0.0, 400.0, 1450.0, 1e7, -1e7, 1e-300])
places = st.dictionaries(
    st.sampled_from(["C1", "C2", "P1", "P2", "P3"]), st.tuples(number, number), max_size=4
)


@few
@given(st.sampled_from(NAMES), places)
def test_no_places_whatever_make_marking_stumble(name: str, places: Any) -> None:
    result = marked(name, {"places": places})
    check_promises(result)
    assert result_text(bundle(name), result)
    for scene in marked_scenes(bundle(name), result):
        assert svg(scene)


@few
@given(st.recursive(st.none() | st.booleans() | st.text(max_size=4), st.lists, max_leaves=6))
def test_what_is_no_place_earns_nothing_with_a_reason(places: Any) -> None:
    check_promises(marked(HALL, json.loads(json.dumps({"places": places}))))
    check_promises(marked(HALL, json.loads(json.dumps({"places": {"P1": places}}))))


def hung(name: str, **places: list[float]) -> Answer:
    return {"places": {**model(name)["places"], **places}}


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_the_things_changes_no_mark(name: str) -> None:
    turned = {"places": dict(reversed(model(name)["places"].items()))}
    assert marked(name, turned).score == marked(name, model(name)).score == 10
    forms = [canonical(FixingsAnswer.model_validate(one)) for one in (model(name), turned)]
    assert forms[0] == forms[1]


@pytest.mark.parametrize(
    "name", [name for name in NAMES if len(exercise(name).task_as(FixingsTask).items) > 1]
)
@pytest.mark.parametrize("spot", [[1500, 1450], [0, 0], [-5000, -5000], [400, 1500]])
def test_all_on_one_spot_is_refused_with_the_reason(name: str, spot: list[float]) -> None:
    result = marked(name, {"places": dict.fromkeys(model(name)["places"], spot)})
    assert result.score == 0
    reason = result.criteria[0].reason
    assert reason.startswith("0 of ")
    assert any(words in reason for words in ("lies over", "does not lie on the wall", "lower edge"))


@pytest.mark.parametrize(
    ("place", "why"),
    [
        ([-1, 1450], "C1 does not lie on the wall"),
        ([3801, 1450], "C1 does not lie on the wall"),
        ([1200, 1450], "C1 lies over N1"),
        ([400, 1399], "the lower edge of C1 is to be 1,400 to 1,500 mm high"),
        ([2800, 1450], "C1 lies over C2"),
    ],
)
def test_a_thing_that_does_not_hang_earns_nothing_and_says_why(place: list[float], why: str) -> None:
    result = marked(KITCHEN, hung(KITCHEN, C1=place))
    assert why in result.criteria[0].reason
    assert scores(result)["clear"] <= 3.5


def test_a_thing_may_stand_exactly_at_an_edge() -> None:
    assert "C1 lies over" not in marked(KITCHEN, hung(KITCHEN, C1=[1100, 1450])).criteria[0].reason
    assert "C2 lies over" not in marked(KITCHEN, hung(KITCHEN, C2=[2700, 1450])).criteria[0].reason


def test_a_thing_may_not_cover_an_accessory() -> None:
    data = {**exercise(KITCHEN).model_dump(by_alias=True, exclude_unset=True)}
    low = json.loads(json.dumps(data).replace("[1400.0, 1500.0]", "[0.0, 1500.0]"))
    changed = freeze(type(exercise(KITCHEN)).model_validate(low))
    task = changed.exercise.task_as(FixingsTask)
    assert str(task.items[0].between) == "(0.0, 1500.0)"
    answer = FixingsAnswer.model_validate(hung(KITCHEN, C1=[400, 1000]))
    assert "C1 lies over S1" in changed.kind.mark(changed, answer).criteria[0].reason


def test_full_and_zero_and_part() -> None:
    nothing: list[Answer] = [{}, {"places": {}}]
    assert [marked(HALL, one).status for one in nothing] == ["empty"] * 2
    one = marked(HALL, {"places": {"P1": model(HALL)["places"]["P1"]}})
    assert one.score == pytest.approx(10 / 3, abs=0.001)


def test_what_nobody_could_see_costs_no_marks_but_is_told() -> None:
    result = marked(HALL, hung(HALL, P2=[1750, 1400], P3=[2080, 1400]))  # the hook of P2 stands above S2
    assert result.score == 10
    assert "behind P2 a zone lies that nothing shows; this costs no marks" in result.criteria[1].reason
    assert result.case is not None
    assert len(result.case.fixings) == 3


@pytest.mark.parametrize("name", NAMES)
def test_the_question_shows_nothing_that_is_out_of_sight(name: str) -> None:
    (blank,) = bundle(name).kind.blank(bundle(name))
    hidden = [one.id for one in bundle(name).case.walls[0].accessories if not one.visible]
    assert not any(text.text.startswith(tuple(hidden)) for text in blank.texts if hidden)
    assert not blank.of("zone")


@pytest.mark.parametrize("name", NAMES)
def test_a_suggested_place_is_free_and_near(name: str) -> None:
    for wrong in exercise(name).wrong:
        answer, result = wrong["answer"], marked(name, wrong["answer"])
        for message in (one for one in result.messages if one.title.startswith("A free place")):
            moved = {**answer["places"]}
            which = message.text.split()[1]
            across = re.search(r"([\d,]+) mm to the (right|left)", message.text)
            up = re.search(r"([\d,]+) mm (up|down)", message.text)
            x, y = moved[which]
            x += int(across[1].replace(",", "")) * (1 if across[2] == "right" else -1) if across else 0
            y += int(up[1].replace(",", "")) * (1 if up[2] == "up" else -1) if up else 0
            assert marked(name, {"places": {**moved, which: [x, y]}}).score > result.score


@pytest.mark.parametrize("name", NAMES)
def test_every_fixing_in_danger_is_numbered_on_the_picture(name: str) -> None:
    result = marked(name, exercise(name).wrong[0]["answer"])
    (scene,) = marked_scenes(bundle(name), result)
    assert result.verdict is not None
    shown = {int(text.text) for text in scene.texts if text.css == "text-number"}
    assert shown == set(range(1, len(result.verdict.failures) + 1)) != set()


@pytest.mark.parametrize(
    ("answer", "note"),
    [
        ({"places": {"C9": [1, 2]}}, 'places: found "C9"; allowed: C1, C2'),
        ({"places": {"C1": [1]}}, "allowed: one more value here"),
        ({"places": {"C1": [1, "x"]}}, "allowed: a number"),
        ({"places": {f"X{n}": [1, 2] for n in range(41)}}, "at most 40"),
        ({"penetration": 5}, "a key that is not known here"),
    ],
)
def test_what_cannot_be_read_is_told(answer: Answer, note: str) -> None:
    result = marked(KITCHEN, answer)
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert note in result.note
