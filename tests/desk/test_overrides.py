"""Marks a tutor changed, and marking again: kept apart, shown everywhere, undone by nothing but the tutor."""

import csv
import json
import subprocess
from collections.abc import Callable
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from tests.desk.small_class import hand_in, lay_bundles, paper
from zonelib.desk.overrides import NAME, add_lines, beyond, in_force, read_changes
from zonelib.desk.overriding import Asked, change_mark
from zonelib.desk.remark import apply_plan, moved_text, tried_plan
from zonelib.desk.report.reading import read_marks
from zonelib.desk.reread import reading_of, reread
from zonelib.desk.run import mark_folder
from zonelib.exercise.bundle import Bundle
from zonelib.site.faults import FileFault

Zonelib = Callable[..., subprocess.CompletedProcess[str]]
DROP = "bedroom-drop"
DOWN: dict[str, Any] = {"points": [[700, 2400], [700, 450], [1250, 450]]}
EDGE: dict[str, Any] = {"points": [[700, 2400], [700, 2330], [1180, 2330], [1180, 450], [1250, 450]]}
"""Down along the very edge of S1's strip: its centre line lies in the zone, half of its width does not."""


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """Return a course of one exercise and three trainees, marked."""
    asked = paper((DROP,))
    lay_bundles(asked, tmp_path / "exercises" / "hw")
    for name, answer in (("amy", DOWN), ("=bob", EDGE), ("cat", dict(asked[0][0].model))):
        hand_in(tmp_path / "submitted", name, {DROP: answer}, asked)
    mark_folder(tmp_path, tmp_path / "marked")
    return tmp_path


def scores(course: Path) -> dict[str, float]:
    with (course / "marked" / "marks.csv").open(newline="", encoding="utf-8") as file:
        return {row["trainee"]: float(row["score"]) for row in csv.DictReader(file)}


def change(course: Path, trainee: str, score: float | None, reason: str = "seen at the bench") -> None:
    change_mark(course / "marked", Asked(trainee, DROP), score=score, reason=reason)


def feedback(course: Path, trainee: str) -> str:
    return unescape((course / "marked" / "feedback" / f"{trainee}.html").read_text(encoding="utf-8"))


def test_a_change_stands_beside_the_computed_mark_and_counts(course: Path) -> None:
    before = scores(course)
    change(course, "amy", 7.25)
    assert scores(course) == before, "the program's own mark stays"
    row = next(one for one in read_marks(course / "marked").rows if one.trainee == "amy")
    assert (row.computed, row.score) == (before["amy"], 7.25)
    assert row.change is not None
    assert (row.change.reason, row.change.by) == ("seen at the bench", "tutor")


def test_the_feedback_page_shows_both_marks_and_the_reason(course: Path) -> None:
    assert "Marks your tutor changed" not in feedback(course, "amy")
    change(course, "amy", 7.25, "<b>seen</b> at the bench")
    text = feedback(course, "amy")
    assert "Marks your tutor changed" in text
    assert '<td class="n">4.03</td><td class="n">7.25</td>' in text
    assert "Changed by: tutor. " in text
    assert "The marks by your tutor count." in text
    assert "The marks above are the program's. In all, your tutor gave you 3.22 more." in text
    change(course, "amy", 4)
    assert "In all, your tutor gave you 0.03 fewer." in feedback(course, "amy")
    change(course, "amy", 4.03)
    assert "In all, your tutor gave you as many." in feedback(course, "amy")
    raw = (course / "marked" / "feedback" / "amy.html").read_text(encoding="utf-8")
    assert "<b>seen" not in raw
    assert "Marks your tutor changed" not in feedback(course, "cat")


@pytest.mark.parametrize("afresh", [False, True])
def test_marking_again_never_overwrites_it(course: Path, afresh: bool) -> None:
    change(course, "amy", 7.25)
    kept = (course / "marked" / NAME).read_bytes()
    mark_folder(course, course / "marked", afresh=afresh)
    assert (course / "marked" / NAME).read_bytes() == kept
    assert "7.25" in feedback(course, "amy")


def test_the_history_only_grows_and_the_last_line_counts(course: Path) -> None:
    for score in (7.0, 8.0, None):
        change(course, "amy", score)
    history = read_changes(course / "marked")
    assert [one.score for one in history] == [7.0, 8.0, None]
    assert in_force(history) == {}
    assert in_force(history[:2])["amy", "hw", DROP].score == 8.0
    assert "Marks your tutor changed" not in feedback(course, "amy")
    assert next(one for one in read_marks(course / "marked").rows if one.trainee == "amy").change is None


def test_a_line_brought_from_elsewhere_counts_by_its_time(course: Path) -> None:
    """Two folders may know the same changes in another order; what is later counts in both."""
    change(course, "amy", 7.0)
    (first,) = read_changes(course / "marked")
    earlier = replace(first, score=5.0, when="2020-01-01T00:00:00Z")
    later = replace(first, score=6.0, when="2999-01-01T00:00:00Z")
    assert in_force([first, earlier])[first.key].score == 7.0
    assert in_force([later, first])[first.key].score == 6.0
    rewritten = replace(first, score=8.0, when="26/11/2026 10:00")
    assert in_force([first, rewritten, earlier])[first.key].score == 8.0, "it keeps its place"
    add_lines(course / "marked", [later])
    change(course, "amy", None)
    assert in_force(read_changes(course / "marked")) == {}, "a new change is never before one that is there"


def test_what_is_not_known_yet_is_told_in_its_order_and_as_often_as_it_was_made(course: Path) -> None:
    change(course, "amy", 7.0)
    (seven,) = read_changes(course / "marked")
    back = replace(seven, score=None)
    assert beyond([seven, back, seven], [seven]) == [back, seven]
    assert beyond([seven, back], [back, seven]) == []


def test_a_name_or_reason_that_looks_like_a_formula_is_none(course: Path) -> None:
    change(course, "=bob", 5.0, "=1+1")
    lines = (course / "marked" / NAME).read_text(encoding="utf-8").splitlines()
    assert lines[1].startswith("'=bob,hw,bedroom-drop,")
    assert ",5.0,'=1+1," in lines[1]
    assert {one.trainee for one in read_marks(course / "marked").rows if one.change} == {"'=bob"}


@pytest.mark.parametrize(
    ("asked", "score", "reason", "words"),
    [
        (Asked("amy", DROP), 10.5, "x", "the mark: found 10.5; allowed: 0 to 10"),
        (Asked("amy", DROP), -1.0, "x", "the mark: found -1; allowed: 0 to 10"),
        (Asked("amy", DROP), float("nan"), "x", "the mark: found nan; allowed: 0 to 10"),
        (Asked("amy", DROP), 5.0, "  ", "the reason: found nothing"),
        (Asked("amy", DROP), None, "x", "the change: found none in force"),
        (Asked("ami", DROP), 5.0, "x", r"the trainee: found ami; allowed: .*did you mean amy\?"),
        (Asked("amy", "drop"), 5.0, "x", "the exercise: found drop; allowed: bedroom-drop"),
        (Asked("amy", DROP, "hw9"), 5.0, "x", "--assignment: found hw9; allowed: hw"),
    ],
)
def test_what_cannot_be_changed_is_told(
    course: Path, asked: Asked, score: float | None, reason: str, words: str
) -> None:
    with pytest.raises(FileFault, match=words):
        change_mark(course / "marked", asked, score=score, reason=reason)
    assert not (course / "marked" / NAME).exists()


def test_the_command_changes_and_takes_back(zonelib: Zonelib, course: Path) -> None:
    out = course / "marked"
    ran = zonelib("override", out, "amy", DROP, "7", "--reason", "seen", "--by", "second marker")
    assert ran.stdout == "amy, bedroom-drop: the program gave 4.03; is now 7.\n"
    assert read_changes(out)[0].by == "second marker"
    both = zonelib("override", out, "amy", DROP, "7", "--remove", "--reason", "x")
    assert "Give either a SCORE or --remove." in both.stderr
    back = zonelib("override", out, "amy", DROP, "--remove", "--reason", "not meant for amy")
    assert back.stdout.endswith("taken back.\n")


def centre_line(course: Path) -> Any:
    return tried_plan(course, course / "marked", readings={"width_inside": "centre-line"})


def test_another_reading_shows_who_changes_before_anything_does(course: Path) -> None:
    before = scores(course)
    whole = {path: path.read_bytes() for path in (course / "marked").rglob("*") if path.is_file()}
    plan = centre_line(course)
    assert {path: path.read_bytes() for path in (course / "marked").rglob("*") if path.is_file()} == whole
    moved = {one.trainee: (one.before, one.after) for one in plan.moved}
    assert moved["=bob"] == (before["'=bob"], 10.0)
    assert "cat" not in moved
    assert plan.rows == 3
    assert "'=bob,hw,bedroom-drop," in moved_text(plan.moved)


def test_applied_it_marks_so_and_keeps_the_tutors_own(course: Path) -> None:
    change(course, "=bob", 5.0)
    plan = centre_line(course)
    assert [one.note for one in plan.moved if one.trainee == "=bob"] == ["your own mark stays"]
    apply_plan(plan, course, course / "marked")
    assert scores(course)["'=bob"] == 10.0
    row = next(one for one in read_marks(course / "marked").rows if one.trainee == "'=bob")
    assert (row.status, row.score) == ("marked", 5.0)
    assert centre_line(course).moved == ()
    assert (course / "marked" / "remark.csv").read_bytes().decode() == moved_text(plan.moved)


def test_a_mended_exercise_takes_the_answers_of_the_one_before(course: Path) -> None:
    bundle = paper((DROP,))[0][1]
    data = json.loads(bundle.text)
    data["exercise"]["criteria"][1]["marks"] = 17
    mended = course / "mended" / "hw"
    mended.mkdir(parents=True)
    Bundle(data).write(mended)
    plan = tried_plan(course, course / "marked", readings={}, bundles=course / "mended")
    assert {one.trainee: one.after for one in plan.moved}["cat"] == 20.0
    untouched = mark_folder(course, course / "other", bundles=course / "mended")
    assert {row.status for row in untouched.rows()} == {"other-bundle"}, "only a tutor's command renews"


def test_a_reading_under_which_the_model_answer_fails_is_told() -> None:
    name = "living-room-corner"
    bundle = paper((name,))[0][1]
    again, doubt = reread(bundle, {"external_corners": "no"})
    assert again.hash != bundle.hash
    assert again.data["exercise"]["case"]["readings"]["external_corners"] == "no"
    assert doubt == "" or doubt.startswith(f"{name}: its own model answer earns")


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ({"width_inside": "half"}, 'width_inside: found "half"; allowed: whole, centre-line'),
        ({"corners": "no"}, 'corners: found "no"; allowed: one of blank_plates'),
    ],
)
def test_a_reading_that_is_not_known_is_told(course: Path, readings: dict[str, str], words: str) -> None:
    with pytest.raises(FileFault, match=words):
        tried_plan(course, course / "marked", readings=readings)


def test_results_and_readings_that_are_not_there_are_told(course: Path) -> None:
    with pytest.raises(FileFault, match="found no results; allowed: a folder that zonelib mark"):
        tried_plan(course, course / "none", readings={"borrow_zones": "yes"})
    with pytest.raises(FileFault, match="found no value; allowed: NAME=VALUE"):
        reading_of("borrow_zones")


def test_the_remark_command_prints_the_table_and_waits_for_the_word(zonelib: Zonelib, course: Path) -> None:
    ask = ("remark", course, "--against", course / "marked", "--reading", "width_inside=centre-line")
    ran = zonelib(*ask, "--csv", course / "moved.csv")
    assert ran.returncode == 0, ran.stderr
    assert "marks change, for" in ran.stdout
    assert "Nothing is changed yet." in ran.stdout
    assert (course / "moved.csv").is_file()
    assert not (course / "marked" / "renewed").exists()
    none = zonelib("remark", course, "--against", course / "marked")
    assert "Give --reading NAME=VALUE, --bundles FOLDER, or both." in none.stderr
