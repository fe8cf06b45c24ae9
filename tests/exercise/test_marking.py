"""Marks hang on what was built, not on how it was drawn, and are never given by accident."""

import json
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import (
    EASY,
    HARD,
    Answer,
    bundle,
    check_promises,
    exercise,
    marked,
    model,
    names_of,
    scores,
)
from zonelib.exercise import mark, read_record

NAMES = names_of("route")
few = settings(max_examples=25)
anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=4),
    max_leaves=12,
)
number = st.floats(-500, 5000) | st.sampled_from(
    [0.0, 700.0, 1250.0, 450.0, 2400.0, 2330.0, 1e7, -1e7, 1e-300]
)
protections = st.sampled_from(["none", "earthed-steel-conduit", "armoured-cable", "plastic-conduit", "tape"])
answers = st.fixed_dictionaries(
    {"points": st.lists(st.tuples(number, number), max_size=7)},
    optional={
        "depth": st.lists(st.floats(-20, 120), max_size=7),
        "protection": st.lists(protections, max_size=7),
        "rcd": st.none() | st.fixed_dictionaries({"ma": st.floats(1, 500), "delayed": st.booleans()}),
    },
)


@few
@given(anything)
def test_no_answer_whatever_makes_marking_stumble(answer: Any) -> None:
    for name in (EASY, HARD):
        text = json.dumps(
            {"answer": {"points": answer, "depth": answer, "protection": answer, "rcd": answer}}
        )
        inner = json.loads(text)["answer"]
        check_promises(marked(name, inner))
        if isinstance(answer, dict):
            check_promises(marked(name, answer))


@few
@given(st.sampled_from(NAMES), answers)
def test_no_route_whatever_makes_marking_stumble(name: str, answer: Answer) -> None:
    check_promises(marked(name, answer))


@few
@given(st.sampled_from(NAMES), st.lists(st.tuples(st.integers(0, 9), number, number), max_size=3))
def test_a_model_answer_bent_out_of_shape_keeps_within_the_marks(
    name: str, bends: list[tuple[int, float, float]]
) -> None:
    answer = model(name)
    for at, x, y in bends:
        answer["points"][at % len(answer["points"])] = [x, y]
    check_promises(marked(name, answer))


@pytest.mark.parametrize("name", NAMES)
def test_full_marks_exactly_when_every_criterion_is_met(name: str) -> None:
    full = marked(name, model(name))
    assert full.score == full.points
    for wrong in exercise(name).wrong:
        result = marked(name, wrong["answer"])
        check_promises(result)
        assert result.score < result.points


def with_points_between(answer: Answer) -> Answer:
    """Draw each leg in a wall in three pieces; in a void a point on the way would be another way."""
    points, legs = [answer["points"][0]], list[int]()
    for leg, ((x0, y0), (x1, y1)) in enumerate(pairwise(answer["points"])):
        shares = (1 / 3, 2 / 3, 1) if answer.get("via", {leg: "wall"})[leg] == "wall" else (1,)
        points += [[x0 + (x1 - x0) * share, y0 + (y1 - y0) * share] for share in shares]
        legs += [leg] * len(shares)
    return {**answer, "points": points, **each_leg(answer, legs)}


def backwards(answer: Answer) -> Answer:
    legs = len(answer["points"]) - 1
    return {**answer, "points": answer["points"][::-1], **each_leg(answer, list(range(legs))[::-1])}


def with_points_twice(answer: Answer) -> Answer:
    """Draw each point twice: every other leg has no length."""
    legs = len(answer["points"]) - 1
    points = [point for point in answer["points"] for _ in (0, 1)]
    return {
        **answer,
        "points": points,
        **each_leg(answer, [min(leg // 2, legs - 1) for leg in range(2 * legs + 1)]),
    }


def with_whole_numbers_as_floats(answer: Answer) -> Answer:
    return {**answer, "points": [[float(x), float(y)] for x, y in answer["points"]]}


PER_LEG = ("depth", "protection", "via")


def each_leg(answer: Answer, legs: list[int]) -> Answer:
    return {key: [answer[key][leg] for leg in legs] for key in PER_LEG if key in answer}


def with_a_point_at_the_zone_s_edge(answer: Answer) -> Answer:
    """Draw a point where each upright leg leaves the band along the top."""
    points, legs = [answer["points"][0]], []
    for leg, ((x0, y0), (x1, y1)) in enumerate(pairwise(answer["points"])):
        if x0 == x1 and min(y0, y1) < 2250 < max(y0, y1):
            points.append([x0, 2250])
            legs.append(leg)
        points.append([x1, y1])
        legs.append(leg)
    return {**answer, "points": points, **each_leg(answer, legs)}


STYLES = [
    with_a_point_at_the_zone_s_edge,
    with_points_between,
    backwards,
    with_points_twice,
    with_whole_numbers_as_floats,
]


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("name", NAMES)
def test_the_way_of_drawing_changes_no_mark(name: str, style: Any) -> None:
    for answer in [model(name), *(wrong["answer"] for wrong in exercise(name).wrong)]:
        if len(answer.get("points", ())) < 2:
            continue
        plain, styled = marked(name, answer), marked(name, style(answer))
        assert scores(styled) == pytest.approx(scores(plain), abs=0.001)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("supply", ["selv", "pelv"])
def test_a_supply_in_an_answer_earns_nothing(name: str, supply: str) -> None:
    result = marked(name, {**model(name), "supply": supply})
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert (
        "supply: found a key that is not known here; allowed: points, depth, protection, rcd" in result.note
    )


@pytest.mark.parametrize("protection", ["earthed-steel-conduit", "earthed-steel-trunking"])
@pytest.mark.parametrize("depth", [0, 15, 30, 70])
@pytest.mark.parametrize("rcd", [{"ma": 30}, {"ma": 100}, None])
def test_covering_all_the_way_never_earns_the_mark_for_covering(
    protection: str, depth: float, rcd: dict[str, float] | None
) -> None:
    # Leaving the RCD out must not make a covering needed where a zone serves.
    choices = {"protection": [protection] * 4, "depth": [depth] * 4, "rcd": rcd}
    result = marked(HARD, {**model(HARD), **choices})
    assert scores(result)["covering"] == 0
    assert result.score < result.points


@pytest.mark.parametrize("name", NAMES)
def test_marking_twice_gives_the_same(name: str) -> None:
    assert marked(name, model(name)) == marked(name, model(name))


@pytest.mark.parametrize(
    "answer", [{}, {"points": []}, {"points": [[700, 2400]]}, {"points": [[700, 2400]] * 3}]
)
def test_nothing_drawn_earns_nothing(answer: Answer) -> None:
    result = marked(EASY, answer)
    assert (result.status, result.score) == ("empty", 0.0)
    assert result.note == "Nothing is drawn yet."


def test_two_points_in_one_place_are_nothing_drawn() -> None:
    assert marked(EASY, {"points": [[700, 2400], [700, 2400.0001]]}).score == 0.0


def test_the_record_s_own_words_earn_nothing() -> None:
    # Which exercise an answer is for is told by the bundle's hash, not by its name.
    record = json.loads(json.dumps({"schema": 1, "exercise": "another", "bundle": bundle(EASY).hash,
                                    "revision": 1, "saved_at": "now", "answer": model(EASY)}))  # fmt: skip
    assert mark(bundle(EASY), read_record(json.dumps(record))).exercise == EASY
