"""What answers show to be misunderstood stands on the page and in the findings, and changes no mark."""

import json
from pathlib import Path

from tests.exercise.answers import Answer, bundle, exercise, marked
from zonelib.desk.diagnosed import idea_of, ideas_html, with_ideas
from zonelib.desk.marked import Marked
from zonelib.desk.run import mark_folder
from zonelib.exercise import AnswerRecord

ZONES, JOIST = "bedroom-zones", "landing-joist"
FLOOR = exercise(ZONES).wrong[2]["answer"]


def row(name: str, answer: Answer) -> Marked:
    return Marked("C-014", "hw", bundle(name), marked(name, answer))


def test_one_idea_that_explains_an_answer_is_told_in_plain_words() -> None:
    idea = idea_of([row(ZONES, FLOOR), row(JOIST, exercise(JOIST).model)])
    assert idea is not None
    assert idea.misconception.id == "floor-band"
    words = ideas_html(idea)
    assert (
        "Your answer fits this idea: A zone runs along the floor. What holds instead: No zone runs" in words
    )
    assert bundle(ZONES).exercise.title in words
    assert bundle(JOIST).exercise.title not in words
    (line,) = with_ideas(idea)
    assert (line["exercise"], line["misconception"]) == (ZONES, "floor-band")


def test_right_answers_nothing_handed_in_and_what_two_ideas_explain_say_nothing() -> None:
    assert idea_of([]) is None
    assert idea_of([row(ZONES, exercise(ZONES).model)]) is None
    assert idea_of([row(ZONES, {})]) is None
    beside_a_door = exercise("living-room-corner").wrong[0]["answer"]
    assert idea_of([row("living-room-corner", beside_a_door)]) is None
    assert ideas_html(None) == ""
    assert list(with_ideas(None)) == []


def test_it_reaches_the_page_and_the_findings_and_the_mark_stays(tmp_path: Path) -> None:
    released, place = tmp_path / "bundles", tmp_path / "submitted" / "C-014" / "hw" / "answers"
    released.mkdir()
    place.mkdir(parents=True)
    bundle(ZONES).write(released)
    record = {
        "schema": 1, "exercise": ZONES, "bundle": bundle(ZONES).hash, "candidate": "C-014",
        "revision": 1, "saved_at": "2026-11-25T10:00:00Z", "answer": FLOOR,
    }  # fmt: skip
    text = AnswerRecord.model_validate(record).as_text()
    (place / f"{ZONES}.json").write_text(text, encoding="utf-8")
    outcome = mark_folder(tmp_path / "submitted", tmp_path / "out", bundles=released)
    (only,) = outcome.rows()
    assert only.score == marked(ZONES, FLOOR).score
    (page,) = (tmp_path / "out" / "feedback").glob("*.html")
    assert "A zone runs along the floor." in page.read_text(encoding="utf-8")
    lines = (tmp_path / "out" / "findings.jsonl").read_text(encoding="utf-8").splitlines()
    assert [one["misconception"] for one in map(json.loads, lines) if "misconception" in one] == [
        "floor-band"
    ]
