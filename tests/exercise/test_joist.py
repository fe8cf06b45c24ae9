"""Cuts in a joist: each serves one cable, more than is asked for is refused, and order changes nothing."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, marked, model, names_of, scores
from zonelib.draw import svg
from zonelib.exercise.kinds.joist.answer import JoistAnswer, canonical
from zonelib.exercise.report import marked_scenes, result_text

NAMES = names_of("joist")
THREE, OLD = "landing-joist", "bathroom-joist"
few = settings(max_examples=25, deadline=None)
number = st.floats(-500, 5000) | st.sampled_from([0.0, 100.0, 900.0, 1440.0, 1e7, -1e7, 1e-300])
size = st.floats(0.1, 400) | st.sampled_from([16.0, 20.0, 50.0, 1e-9, 1e7, 0.0])
covering = st.sampled_from(["none", "steel-plate", "tape"])
holes = st.lists(
    st.fixed_dictionaries({"x": number, "y": number, "diameter": size}, optional={"protection": covering}),
    max_size=5,
)
notches = st.lists(
    st.fixed_dictionaries(
        {"x": number, "length": size, "depth": size},
        optional={"protection": covering, "edge": st.sampled_from(["top", "bottom"])},
    ),
    max_size=4,
)


@few
@given(st.sampled_from(NAMES), holes, notches)
def test_no_cuts_whatever_make_marking_stumble(name: str, holes: list[Any], notches: list[Any]) -> None:
    result = marked(name, {"holes": holes, "notches": notches})
    check_promises(result)
    assert result_text(bundle(name), result)
    for scene in marked_scenes(bundle(name), result):
        assert svg(scene)


@few
@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(max_size=4), st.lists, max_leaves=8))
def test_what_is_no_cut_earns_nothing_with_a_reason(cuts: Any) -> None:
    check_promises(marked(OLD, json.loads(json.dumps({"holes": cuts, "notches": cuts}))))


def three(**changes: Any) -> Answer:
    return {"holes": [{**one, **changes} for one in model(THREE)["holes"]]}


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_the_cuts_changes_no_mark(name: str) -> None:
    answers = [model(name), three() if name == THREE else {**model(name), "holes": []}]
    for answer in answers:
        turned = {part: cuts[::-1] for part, cuts in answer.items()}
        assert scores(marked(name, turned)) == scores(marked(name, answer))
        forms = [canonical(JoistAnswer.model_validate(one)) for one in (answer, turned)]
        assert forms[0] == forms[1]


def test_full_and_zero_and_part() -> None:
    assert marked(THREE, model(THREE)).score == 10
    nothing: list[Answer] = [{}, {"holes": [], "notches": []}]
    assert [marked(THREE, one).status for one in nothing] == ["empty"] * 2
    two = {"holes": model(THREE)["holes"][:2]}
    # The two small holes serve two of three cables: two thirds of every part but the covering, which waits.
    assert marked(THREE, two).score == pytest.approx(9 * 2 / 3, abs=0.001)


def test_more_cuts_than_are_asked_for_earn_nothing() -> None:
    many = [{"x": 900 + 90 * n, "y": 100, "diameter": 20} for n in range(6)]
    result = marked(THREE, {"holes": many})
    assert result.score == 0
    assert result.criteria[0].reason == "3 holes are asked for, and 6 cut. Each cut weakens the joist."
    notch = {"notches": [{"x": 500, "length": 20, "depth": 10, "protection": "steel-plate"}]}
    reason = marked(THREE, {**model(THREE), **notch}).criteria[0].reason
    assert reason == "No notches are asked for, and 1 cut. Each cut weakens the joist."


def test_all_on_one_spot_are_one_hole() -> None:
    result = marked(THREE, {"holes": [{"x": 1000, "y": 100, "diameter": 20}] * 3})
    assert "1 of 3 cables have a cut of their own" in result.criteria[0].reason
    # A third of 2 + 3 + 1 + 2; the holes are too close together; no mark for covering before all are covered.
    assert result.score == pytest.approx(8 / 3, abs=0.001)


@pytest.mark.parametrize(
    ("hole", "served"),
    [
        ({"diameter": 15.9}, 1),  # serves neither of the small cables
        ({"diameter": 16}, 3),
        ({"y": 195}, 1),  # runs out of the timber
        ({"x": -150}, 1),
        ({"x": 3700}, 1),
    ],
)
def test_a_hole_serves_where_it_is_large_enough_and_in_the_timber(hole: Answer, served: int) -> None:
    small = [{**one, **hole} for one in model(THREE)["holes"][:2]]
    if "x" in hole or "y" in hole:
        small[1] = {**small[1], "x": small[1].get("x", 0) + 100}
    result = marked(THREE, {"holes": [*small, model(THREE)["holes"][2]]})
    assert f"{served} of 3 cables" in result.criteria[0].reason


def test_the_largest_need_does_not_lose_its_hole_to_a_smaller_one() -> None:
    swapped = [
        {**one, "diameter": size} for one, size in zip(model(THREE)["holes"], (20, 16, 16), strict=True)
    ]
    assert marked(THREE, {"holes": swapped}).score == 10


@pytest.mark.parametrize("diameter", [50.1, 100, 190])
def test_holes_too_large_earn_no_more_than_that_they_serve(diameter: float) -> None:
    far = [{"x": x, "y": 100, "diameter": diameter} for x in (300, 1200, 2400)]
    assert marked(THREE, {"holes": far}).score == 2


def test_a_covering_that_is_not_on_offer_earns_nothing() -> None:
    result = marked(THREE, three(protection="earthed-steel-conduit"))
    assert result.score == 0
    assert (
        "earthed-steel-conduit is not on offer. Choose one of: none, steel-plate."
        in result.criteria[0].reason
    )


def test_an_unknown_covering_cannot_be_read_as_a_cut() -> None:
    assert marked(THREE, three(protection="tape")).score == 0


def test_what_was_there_before_is_no_mistake_of_the_answer() -> None:
    result = marked(OLD, model(OLD))
    assert result.verdict is not None
    assert {"H1"} & {one.subject for one in result.verdict.findings if one.where.other is None} == set()


@pytest.mark.parametrize("name", NAMES)
def test_every_failed_finding_is_numbered_on_the_picture(name: str) -> None:
    bad = {
        part: [{**one, "x": 30, "protection": "none"} for one in cuts[:1]]
        for part, cuts in model(name).items()
    }
    result = marked(name, bad)
    (scene,) = marked_scenes(bundle(name), result)
    assert result.verdict is not None
    shown = {int(text.text) for text in scene.texts if text.css == "text-number"}
    assert shown == set(range(1, len(result.verdict.failures) + 1)) != set()


@pytest.mark.parametrize(
    ("answer", "note"),
    [
        ({"holes": [{"x": 1, "y": 1, "diameter": 5}] * 41}, "at most 40 entries"),
        ({"holes": [{"x": 1, "y": 1, "diameter": 0}]}, "above 0"),
        ({"holes": [{"x": 1, "y": 1}]}, "this key is required"),
        ({"notches": [{"x": 1, "length": 5, "depth": 5, "edge": "left"}]}, "'top' or 'bottom'"),
        ({"joist": "J2"}, "a key that is not known here"),
    ],
)
def test_what_cannot_be_read_is_told(answer: Answer, note: str) -> None:
    result = marked(OLD, answer)
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert note in result.note
