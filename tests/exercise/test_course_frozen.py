"""A course's readings and sign-off are frozen into bundles, and said wherever they are marked."""

from html import unescape
from pathlib import Path

import pytest

from tests.exercise.answers import bundle, exercise, model
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle, freeze, read_bundle
from zonelib.exercise.load import bank_path
from zonelib.exercise.marking import Result, mark
from zonelib.exercise.notebook import renew_homework, write_homework
from zonelib.exercise.report import result_html, result_text
from zonelib.rules.course import Course, course_for
from zonelib.site.faults import FileFault

NAME = "bedroom-drop"
SIGNED = "BS 7671:2018+A2:2022, checked against the book by the course leader on 20 November 2026"
SIGN_OFF = 'checked = { edition = "BS 7671:2018+A2:2022", by = "the course leader", on = 2026-11-20 }'


def course(folder: Path, *lines: str) -> Course:
    (folder / "course.toml").write_text("\n".join(["schema = 1", "[[packs]]", 'pack = "uk"', *lines]))
    found = course_for(folder)
    assert found is not None
    return found


def marked(one: Bundle) -> Result:
    stated = {"schema": 1, "exercise": NAME, "bundle": one.hash, "revision": 1, "saved_at": "now"}
    return mark(one, AnswerRecord.model_validate({**stated, "answer": model(NAME)}))


def test_without_a_course_a_bundle_is_what_it_was(tmp_path: Path) -> None:
    write_homework([NAME], tmp_path / "hw1", title="Homework")
    assert read_bundle(tmp_path / "hw1" / f"{NAME}.bundle.json").hash == bundle(NAME).hash
    assert freeze(exercise(NAME), course=course(tmp_path)).hash == bundle(NAME).hash


def test_a_homework_takes_the_course_of_its_folder_and_is_renewed_with_it(tmp_path: Path) -> None:
    home = tmp_path / "solutions" / "hw1"
    course(tmp_path, SIGN_OFF)
    write_homework([NAME], home, title="Homework")
    written = read_bundle(home / f"{NAME}.bundle.json")
    assert written.pack.stated_edition == SIGNED
    assert written.hash != bundle(NAME).hash
    course(tmp_path)
    renew_homework(home)
    assert read_bundle(home / f"{NAME}.bundle.json").hash == bundle(NAME).hash


def test_every_report_of_a_signed_bundle_names_who_checked(tmp_path: Path) -> None:
    signed = freeze(exercise(NAME), course=course(tmp_path, SIGN_OFF))
    result = marked(signed)
    assert result.score == result.points
    assert result.verdict is not None
    assert result.verdict.edition == SIGNED
    for words in (result_text(signed, result), unescape(result_html(signed, result))):
        assert f"Rules: {SIGNED}." in words
        assert "not checked against" not in words


def test_readings_of_the_course_stand_beneath_those_of_the_exercise(tmp_path: Path) -> None:
    chosen = course(tmp_path, 'readings = { blank_plates = "no", sloping_top = "perpendicular" }')
    own = exercise(NAME).model_copy(
        update={"case": {**exercise(NAME).case, "readings": {"blank_plates": "yes"}}}
    )
    assert freeze(own, course=chosen).case.readings == {"blank_plates": "yes", "sloping_top": "perpendicular"}
    plain = freeze(exercise(NAME), course=chosen)
    assert plain.case.readings == {"blank_plates": "no", "sloping_top": "perpendicular"}


def test_a_reading_under_which_no_answer_earns_all_marks_is_told_before_anything_is_written(
    tmp_path: Path,
) -> None:
    chosen = course(tmp_path, 'readings = { blank_plates = "no" }')
    text = bank_path(NAME).read_text(encoding="utf-8")
    mine = tmp_path / f"{NAME}.toml"
    mine.write_text(text.replace('kind = "socket"', 'kind = "blank-plate"'), encoding="utf-8")
    with pytest.raises(FileFault, match=f"for the exercise {NAME}: found a model answer that earns .* of 10"):
        write_homework([str(mine)], tmp_path / "hw1", title="Homework", course=chosen)
    assert not (tmp_path / "hw1").exists()
