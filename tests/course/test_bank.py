"""Each exercise can be solved, tells typical mistakes apart, and gives nothing away."""

import json
import random
from typing import Any

import pytest

from tests.exercise.answers import NAMES, Answer, bundle, exercise, marked, names_of
from zonelib.exercise.kinds.route.task import RouteTask

ROUTES = names_of("route")
MISTAKES = [
    pytest.param(name, one, id=f"{name}-{number}")
    for name in NAMES
    for number, one in enumerate(exercise(name).wrong, 1)
]


@pytest.mark.parametrize("name", NAMES)
def test_the_model_answer_earns_full_marks(name: str) -> None:
    result = marked(name, exercise(name).model)
    assert result.status == "marked"
    assert [one.reason for one in result.criteria if not one.met] == []
    assert result.score == result.points > 0
    assert result.verdict is None or result.verdict.passed or exercise(name).kind == "inspect"


@pytest.mark.parametrize(("name", "wrong"), MISTAKES)
def test_a_typical_mistake_gets_the_stated_marks_and_a_reason(name: str, wrong: dict[str, Any]) -> None:
    result = marked(name, wrong["answer"])
    assert round(result.score, 1) == wrong["marks"] < result.points
    assert all(one.reason for one in result.criteria)


@pytest.mark.parametrize("name", NAMES)
def test_its_mistakes_lose_marks_in_ways_that_can_be_told_apart(name: str) -> None:
    wrong = exercise(name).wrong
    assert len(wrong) >= 2
    assert all(any(not criterion.met for criterion in marked(name, one["answer"]).criteria) for one in wrong)
    assert len({one["words"] for one in wrong}) == len(wrong)


@pytest.mark.parametrize("name", NAMES)
def test_an_empty_answer_earns_nothing(name: str) -> None:
    result = marked(name, {})
    assert (result.status, result.score) == ("empty", 0.0)


@pytest.mark.parametrize("points", [[], [[700, 2400]], [[700, 2400]] * 2])
@pytest.mark.parametrize("name", ROUTES)
def test_a_route_of_no_length_is_an_empty_answer(name: str, points: list[Answer]) -> None:
    result = marked(name, {"points": points})
    assert (result.status, result.score) == ("empty", 0.0)


@pytest.mark.parametrize("name", NAMES)
def test_it_has_three_hints_that_grow(name: str) -> None:
    hints = exercise(name).hints
    assert hints is not None
    assert len({hints.fact, hints.pointer, hints.step}) == 3


@pytest.mark.parametrize("name", ROUTES)
def test_its_question_says_what_may_be_chosen(name: str) -> None:
    question = exercise(name).question
    assert "**Given:**" in question
    chosen = question.split("**You choose:**")[1]
    words = {"depth": "depth", "protection": "covering", "rcd": "RCD", "via": "void"}
    opened = {part for part, word in words.items() if word in chosen}
    assert opened == set(exercise(name).task_as(RouteTask).open)


@pytest.mark.parametrize("name", ROUTES)
def test_its_question_names_everything_on_the_wall(name: str) -> None:
    case = exercise(name).case
    walls = [*case.get("walls", []), *(wall for room in case.get("rooms", []) for wall in room["walls"])]
    kinds = ("openings", "accessories")
    there = [one["id"] for wall in walls for kind in kinds for one in wall.get(kind, [])]
    told = [one for one in there if one in exercise(name).question]
    assert told == there


@pytest.mark.parametrize("name", NAMES)
def test_a_bundle_holds_no_model_answer(name: str) -> None:
    frozen = json.loads(bundle(name).text)["exercise"]
    assert "model" not in frozen
    assert "wrong" not in frozen


def jittered(answer: Answer, draw: random.Random) -> Answer:
    """Return an answer with some inner points, depths, coverings and the RCD moved about."""
    first, *inner, last = answer["points"]
    moved = [[value + draw.choice([0, 0, draw.gauss(0, 60)]) for value in point] for point in inner]
    depth = [draw.choice([d, draw.uniform(0, 70)]) for d in answer.get("depth", [])]
    covering = [draw.choice([p, "none", "earthed-steel-conduit"]) for p in answer.get("protection", [])]
    rcd = draw.choice([{"ma": 30}, {"ma": 100}, {"ma": 30, "at": "outlet"}, {"ma": 30, "delayed": True}])
    legs = {"depth": depth or None, "protection": covering or None}
    return {"points": [first, *moved, last], **legs, "rcd": rcd}


@pytest.mark.parametrize("name", ROUTES)
def test_full_marks_are_never_given_where_a_rule_fails(name: str) -> None:
    """Every rule that a trainee can break here must belong to some criterion."""
    draw = random.Random(name)
    for _ in range(80):
        answer = jittered(exercise(name).model, draw)
        result = marked(name, answer)
        assert result.verdict is not None
        if not result.verdict.passed:
            assert result.score < result.points, answer
