"""Every kind holds what the others of the house rely on: marks, words, pictures, and what it refuses."""

import json
import re
from html.parser import HTMLParser
from itertools import combinations
from typing import Any

import pytest

from tests.exercise.answers import NAMES, bundle, check_promises, exercise, marked, model, record
from zonelib.draw import svg
from zonelib.exercise import Result, freeze, mark, read_record
from zonelib.exercise.kinds import NAMES as KINDS
from zonelib.exercise.kinds import exercise_model, kind_named
from zonelib.exercise.messages import headline, in_order, most_serious_first
from zonelib.exercise.report import marked_scenes, result_html, result_text
from zonelib.rules.words import templates


def first_of(kind: str) -> str:
    return next(name for name in NAMES if exercise(name).kind == kind)


def answers(name: str) -> list[Any]:
    return [model(name), *(one["answer"] for one in exercise(name).wrong), {}]


@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_s_own_criteria_name_checks_and_rules_that_there_are(kind: str) -> None:
    one, above = kind_named(kind), set[str]()
    assert one.name == kind
    for rule in one.criteria:
        assert bool(rule.check) != bool(rule.rules)
        assert {rule.check} <= {None, *one.checks}
        assert set(rule.rules) <= set(one.rules) <= set(templates())
        assert set(rule.needs) <= above
        above.add(rule.id)
    assert len(above) == len(one.criteria)


def test_a_kind_that_there_is_not_is_told() -> None:
    with pytest.raises(KeyError, match="rout"):
        kind_named("rout")
    assert exercise_model("rout") is exercise_model("rout")


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_two_exercises_with_wrong_answers_each(kind: str) -> None:
    ours = [name for name in NAMES if exercise(name).kind == kind]
    assert len(ours) >= 2
    assert all(len(exercise(name).wrong) >= 2 for name in ours)


@pytest.mark.parametrize("name", NAMES)
def test_its_answers_keep_the_promises_and_have_words_and_pictures(name: str) -> None:
    for answer in answers(name):
        result = marked(name, answer)
        check_promises(result)
        assert headline(result)
        assert len(most_serious_first(result)) == len(in_order(result))
        assert (result.score == result.points) == (not in_order(result))
        for scene in marked_scenes(bundle(name), result):
            assert svg(scene).count("<svg") == 1
            assert scene.description.startswith(scene.title)


@pytest.mark.parametrize("name", NAMES)
def test_every_lost_mark_has_a_message_or_waits_for_one(name: str) -> None:
    for answer in answers(name):
        result = marked(name, answer)
        if result.score < result.points:
            assert in_order(result)


class Tags(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open.append(tag)
        self.ids += [value for key, value in attrs if key == "id" and value]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.mark.parametrize("name", NAMES)
def test_its_report_stands_alone_with_safety_words(name: str) -> None:
    for answer in answers(name):
        result = marked(name, answer)
        page, text = result_html(bundle(name), result), result_text(bundle(name), result)
        tags = Tags(page)
        assert tags.open == []
        assert len(tags.ids) == len(set(tags.ids))
        assert not re.search(r"(src|href)=|<script", page)
        for said in (page, text):
            assert bundle(name).pack.safety.aid in said
            assert bundle(name).pack.stated_edition in said


@pytest.mark.parametrize("name", NAMES)
def test_its_blank_picture_tells_no_answer(name: str) -> None:
    scenes = bundle(name).kind.blank(bundle(name))
    assert scenes or exercise(name).kind in {"choose", "number"}
    for scene in scenes:
        assert not scene.of("zone") or "zones" in exercise(name).show
        assert not [
            shape for shape in scene.shapes if shape.css in {"missed", "strayed", "marked", "cable-fails"}
        ]


@pytest.mark.parametrize("name", NAMES)
def test_the_same_answer_is_marked_the_same_to_the_last_digit_however_it_came(name: str) -> None:
    for answer in answers(name):
        direct, read = record(name, answer), read_record(record(name, answer).as_text())
        assert mark(bundle(name), direct) == mark(bundle(name), read)
        again = json.loads(json.dumps(answer))
        assert repr(marked(name, again).score) == repr(marked(name, answer).score)


@pytest.mark.parametrize("name", NAMES)
def test_an_answer_s_canonical_form_tells_answers_apart(name: str) -> None:
    kind = bundle(name).kind
    forms = [str(kind.canonical(kind.answer.model_validate(one))) for one in answers(name)[:-1]]
    assert len(set(forms)) == len(forms)


@pytest.mark.parametrize("name", NAMES)
def test_no_words_collide_on_its_pictures_nor_leave_the_paper(name: str) -> None:
    for answer in answers(name):
        for scene in marked_scenes(bundle(name), marked(name, answer)):
            near = -0.1 * scene.em
            pairs = combinations(scene.texts, 2)
            assert [(a.text, b.text) for a, b in pairs if a.box.grown(near).meets(b.box.grown(near))] == []
            assert [text.text for text in scene.texts if not scene.view.holds(text.box)] == []


def with_default_criteria(name: str, answer: Any) -> Result:
    plain = freeze(exercise(name).model_copy(update={"criteria": ()}))
    asked = {"schema": 1, "exercise": name, "bundle": plain.hash, "revision": 1, "saved_at": "now"}
    return mark(plain, read_record(json.dumps({**asked, "answer": answer})))


@pytest.mark.parametrize("name", ["bedroom-drop", "kitchen-hatch", "living-room-corner"])
def test_a_route_s_own_criteria_give_its_model_answer_full_marks(name: str) -> None:
    assert with_default_criteria(name, model(name)).score == 10


def test_a_slant_earns_nothing_for_being_short_and_bare() -> None:
    points = model("bedroom-drop")["points"]
    result = with_default_criteria("bedroom-drop", {"points": [points[0], points[-1]]})
    waits = "This counts once this is met: All of the cable lies where it is expected."
    waiting = {one.id: (one.gained, one.reason) for one in result.criteria if one.waits}
    assert waiting == {"length": (0, waits), "covering": (0, waits)}
    assert all(one.text != waits for one in result.messages)
