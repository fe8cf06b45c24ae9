"""Numbers: worked out from the case, taken as people write them, refused with the reason."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import bundle, check_promises, marked, model, names_of, scores
from tests.exercise.making import Data, answered, cable, case, frozen, made, stated
from zonelib import judge, load_pack
from zonelib.exercise.kinds.number.answer import NumberAnswer, canonical
from zonelib.exercise.kinds.number.quantity import quantity
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.load import case_of
from zonelib.exercise.report import marked_scenes, result_text

NAMES = names_of("number")
CHASE = "utility-deepest-chase"
few = settings(max_examples=60)
numbers = st.floats() | st.integers() | st.text(max_size=8) | st.from_regex(r"[+-]?\d{1,4}[.,]?\d{0,4} ?m?m?")


@few
@given(st.sampled_from(NAMES), numbers)
def test_no_number_whatever_makes_marking_stumble(name: str, value: Any) -> None:
    text = json.dumps({"value": value})
    if "NaN" not in text and "Infinity" not in text:
        result = marked(name, json.loads(text))
        check_promises(result)
        assert result_text(bundle(name), result)


@pytest.mark.parametrize("value", [True, [], [34], {}, {"value": 34}, "3" * 50, 1e300, 10**400])
def test_what_is_no_number_earns_nothing_with_a_reason(value: Any) -> None:
    result = marked(CHASE, {"value": value})
    check_promises(result)
    assert result.status == "unreadable"
    assert "allowed: a number such as 12.5 or 12,5" in result.note


SAME = [34, 34.0, "34", "34.0", "34,0", " 34 ", "34 mm", "+34", "34\N{NO-BREAK SPACE}mm", "34,000"]


@pytest.mark.parametrize("value", SAME)
def test_a_number_counts_however_it_is_written(value: Any) -> None:
    # 34,000 can only be 34.000 here: 34000 mm is no depth of a chase in 102 mm.
    assert scores(marked(CHASE, {"value": value})) == {"value": 4}


def test_equal_numbers_are_one_answer() -> None:
    written = [NumberAnswer(value=one) for one in (34, 34.0, "34", "34,0", " 34.0 ")]
    assert len({repr(canonical(one)) for one in written}) == 1


@pytest.mark.parametrize(
    ("value", "reason"),
    [
        ("thirty", '"thirty" is not a number. Write one such as 12.5 or 12,5. Give it in mm.'),
        ("3.4 cm", '"3.4 cm" is not a number. Write one such as 12.5 or 12,5. Give it in mm.'),
        ("1e1", '"1e1" is not a number.'),
        ("nan", '"nan" is not a number.'),
        ("3.4.0", '"3.4.0" is not a number.'),
        (0.5, "0.5 mm is not possible here. Give a number from 1 to 102."),
        ("102,5", "102.5 mm is not possible here. Give a number from 1 to 102."),
        (-34, "-34 mm is not possible here."),
    ],
)
def test_what_is_refused_earns_nothing_and_says_why(value: Any, reason: str) -> None:
    result = marked(CHASE, {"value": value})
    assert result.score == 0
    assert result.criteria[0].reason.startswith(reason)
    assert result.messages[0].title == "Not taken as an answer"


def test_a_comma_that_can_be_read_in_two_ways_is_asked_back(tmp_path: Path) -> None:
    task = {"ask": "outside-zone", "of": "R1", "face": "front", "tolerance": 1, "allowed": [0, 5000]}
    way: Data = {"points": [[1200, 450], [2600, 450], [2600, 2400]]}
    data = stated("number", task, case=case(routes=[cable(**way)]), model={"value": 883.5})
    said = '"1,332" can be read as 1332 or as 1.332. Write one of the two.'
    assert answered(frozen(tmp_path, data), {"value": "1,332"}).criteria[0].reason == said


@pytest.mark.parametrize(
    ("value", "marks", "reason"),
    [
        (34.5, 4, "34.5 mm is within 0.5 mm of it."),
        (34.51, 2, "34.51 mm is near, and a little more than it is."),
        (32.5, 2, "32.5 mm is near, and a little less than it is."),
        (32.4, 0, "32.4 mm is less than it is."),
        (35.6, 0, "35.6 mm is more than it is."),
    ],
)
def test_both_sides_of_the_tolerance(value: float, marks: float, reason: str) -> None:
    result = marked(CHASE, {"value": value})
    assert (result.score, result.criteria[0].reason) == (marks, reason)


@pytest.mark.parametrize("name", NAMES)
def test_an_answer_that_is_off_is_told_the_way_and_not_the_number(name: str) -> None:
    result = marked(name, {"value": 3})
    (message,) = result.messages
    value = str(model(name)["value"])
    told = " ".join([message.text, *(one.reason for one in result.criteria)])
    assert value not in told
    assert message.title == "How to come to it"
    (scene,) = marked_scenes(bundle(name), result)
    assert f" {value} mm" not in scene.description


@pytest.mark.parametrize("name", NAMES)
def test_a_bundle_does_not_hold_the_number(name: str) -> None:
    held = bundle(name).data
    assert set(held) == {"format", "exercise", "pack"}
    assert "value" not in held["exercise"]["number"]


# --- each quantity by hand ---------------------------------------------------------------------

BLOCK = {"thickness": 126, "build": "masonry"}
JOIST = {
    "id": "J1", "kind": "solid", "depth": 195, "width": 47, "span": 3600,
    "holes": [{"id": "H1", "x": 1100, "y": 97.5, "diameter": 20}],
    "notches": [{"id": "N1", "x": 500, "length": 40, "depth": 20, "edge": "top"}],
}  # fmt: skip
LEVEL = {"points": [[1200, 450], [3000, 450]]}
BY_HAND = [
    ("deepest-chase", "R1", {}, (126 - 26) / 3),  # a third of the leaf, upright: FACTS, 2C30 (P)
    ("deepest-chase", "R2", {}, (126 - 26) / 6),  # a sixth, level
    ("chase-cut", "R1", {}, 20 - 13 + 6),
    ("clear-depth", "R1", {"face": "front"}, 50),  # 522.6.202 (Q)
    ("clear-depth", "R1", {"face": "rear"}, 126 - 6 - 50),
    ("outside-zone", "R3", {"face": "front"}, (2250 - 493) / 2 + 5),
    ("largest-hole", "H1", {}, 195 / 4),  # a quarter of the depth: NHBC 6.4.18 (T)
    ("deepest-notch", "N1", {}, 195 / 8),  # an eighth
]


def block(**parts: Any) -> Data:
    data = case(**parts)
    return {**data, "walls": [{**data["walls"][0], **BLOCK}]}


@pytest.mark.parametrize("asked", BY_HAND, ids=str)
@pytest.mark.parametrize(("unit", "in_mm"), [("mm", 1), ("cm", 10), ("m", 1000)])
def test_each_number_by_hand(asked: tuple[str, str, Data, float], unit: str, in_mm: float) -> None:
    # R3 stands far right of S1: its worst point is midway between the strip level with S1 and the top band.
    ask, of, more, value = asked
    routes = [cable(), cable("R2", **LEVEL), cable("R3", points=[[2600, 450], [2600, 2400]])]
    stood, pack = case_of(block(routes=routes, joists=[JOIST]))
    task = NumberTask.model_validate(
        {"ask": ask, "of": of, "unit": unit, "tolerance": 1.0, "allowed": (0.0, 1.0), **more}
    )
    found = quantity(stood, pack, task)
    assert found is not None
    assert found.value == pytest.approx(value / in_mm)


@pytest.mark.parametrize("face", ["front", "rear"])
def test_the_clear_depth_is_where_the_engine_s_verdict_turns(face: str) -> None:
    stood, pack = case_of(block(routes=[cable()]))
    task = NumberTask.model_validate(
        {"ask": "clear-depth", "of": "R1", "face": face, "tolerance": 1.0, "allowed": (0.0, 200.0)}
    )
    found = quantity(stood, pack, task)
    assert found is not None
    states = []
    for depth in (found.value - 0.01, found.value, found.value + 0.01):
        verdict = judge(case_of(block(routes=[cable(depth=depth)]))[0], load_pack("uk"))
        states.append(
            [one.status != "not-applicable" for one in verdict.findings
             if one.rule == "wall-zone" and one.where.face == face]
        )  # fmt: skip
    assert states == [[face == "front"], [False], [face == "rear"]]


# --- questions that cannot be asked ------------------------------------------------------------

ONE = {"ask": "deepest-chase", "of": "R1", "tolerance": 1, "allowed": [0, 100]}


@pytest.mark.parametrize(
    ("task", "fault"),
    [
        ({"of": "R9"}, 'number.of: found "R9"; allowed: R1'),
        ({"allowed": [100, 0]}, "number.allowed: found 100 to 0; allowed: the lesser number first"),
        ({"allowed": [0, 20]}, "number.allowed: found 33.333, outside of 0 to 20"),
        ({"half": 1}, "number.half: found 1; allowed: more than the tolerance, 1, or 0"),
        ({"ask": "clear-depth"}, "number.face: found nothing; allowed: front, rear"),
        (
            {"ask": "outside-zone"},
            'number: found "outside-zone" of R1, for which the case gives not exactly one',
        ),
        ({"ask": "widest-smile"}, "number.ask: found "),
    ],
)
def test_a_question_that_cannot_be_asked_is_refused_in_words(tmp_path: Path, task: Data, fault: str) -> None:
    data = stated("number", {**ONE, **task}, case=block(routes=[cable()]), model={"value": 33})
    with pytest.raises(ValueError, match="allowed") as caught:
        made(tmp_path, data)
    assert fault in str(caught.value)


def test_legs_that_differ_need_one_to_be_named(tmp_path: Path) -> None:
    bent = cable(points=[[3000, 450], [1200, 450], [1200, 2400]])
    data = stated("number", ONE, case=block(routes=[bent]), model={"value": 33})
    with pytest.raises(ValueError, match="for which the case gives not exactly one number"):
        made(tmp_path, data)
    data["number"] = {**ONE, "leg": 2}
    assert answered(frozen(tmp_path, data), {"value": "33,3"}).score == 4
