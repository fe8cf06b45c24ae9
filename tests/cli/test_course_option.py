"""The course file as the commands show it."""

from pathlib import Path
from typing import Any

import pytest

from tests.cli.files import FAILING, UP, lines, run, written
from tests.rules.cases import one_route

SIGNED = "BS 7671:2018+A2:2022, checked against the book by the course leader on 20 November 2026"
UNCHECKED = "BS 7671:2018+A2:2022, 522.6 not checked against A4:2026"
COURSE = """schema = 1
[[packs]]
pack = "uk"
readings = { borrow_zones = "yes" }
checked = { edition = "BS 7671:2018+A2:2022", by = "the course leader", on = 2026-11-20 }
"""
BORROWED = one_route(UP, joins=[])


@pytest.fixture
def case(tmp_path: Path) -> str:
    (tmp_path / "walls").mkdir()
    return written(tmp_path / "walls", "case.json", BORROWED)


@pytest.fixture
def course(tmp_path: Path) -> str:
    return written(tmp_path, "course.toml", COURSE)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_check_tells_which_course_it_read_and_who_checked(case: str, course: str) -> None:
    result = run("check", case)
    assert result.exit_code == 0
    assert f"By {SIGNED}." in flat(result.stdout)
    assert f"Course: {course}." in flat(result.stdout)


def test_a_check_as_json_holds_the_same(case: str, course: str) -> None:
    (told,) = lines(run("check", "--json", case))
    assert (told["edition"], told["course"], told["passed"]) == (SIGNED, course, True)


def test_without_a_course_file_nothing_is_added(case: str) -> None:
    (told,) = lines(run("check", "--json", case))
    assert (told["edition"], told["passed"]) == (UNCHECKED, False)
    assert "course" not in told
    assert "Course:" not in run("check", case).stdout


def test_the_option_hides_the_course_of_the_folder(tmp_path: Path, case: str, course: str) -> None:
    assert Path(course).exists()
    other = written(tmp_path, "other.toml", 'schema = 1\npacks = [{ pack = "uk" }]')
    (told,) = lines(run("check", "--json", "--course", other, case))
    assert (told["edition"], told["course"], told["passed"]) == (UNCHECKED, other, False)


def test_each_file_is_judged_by_its_own_course(tmp_path: Path, case: str, course: str) -> None:
    assert Path(course).exists()
    (tmp_path / "evening").mkdir()
    written(tmp_path / "evening", "course.toml", 'schema = 1\npacks = [{ pack = "uk" }]')
    other = written(tmp_path / "evening", "case.json", BORROWED)
    assert [told["passed"] for told in lines(run("check", "--json", case, other))] == [True, False]


def test_zones_and_picture_say_it_too(tmp_path: Path, case: str, course: str) -> None:
    assert Path(course).exists()
    (told,) = lines(run("zones", "--json", case))
    assert told["edition"] == SIGNED
    assert any(one["properties"]["joined"] == "R1" for one in told["features"])
    assert SIGNED in flat(run("zones", case).stdout)
    drawn = tmp_path / "wall.svg"
    assert SIGNED in flat(run("picture", case, "--out", str(drawn)).stdout)
    assert "checked against the book" in drawn.read_text(encoding="utf-8")


@pytest.mark.parametrize("command", [["check"], ["zones"], ["picture", "--out", "x.svg"]])
def test_a_course_file_that_cannot_be_read_stops_the_command(
    tmp_path: Path, case: str, command: list[str], zonelib: Any
) -> None:
    written(tmp_path, "course.toml", COURSE.replace("borrow_zones", "borrow_zone"))
    result = zonelib(*command, case)
    assert result.returncode == 2
    assert "did you mean borrow_zones?" in flat(result.stderr)
    assert "Traceback" not in result.stderr


def test_a_broken_course_is_told_in_json_and_the_other_files_are_judged(tmp_path: Path, case: str) -> None:
    written(tmp_path / "walls", "course.toml", "schema = 1")
    (tmp_path / "sound").mkdir()
    sound = written(tmp_path / "sound", "case.json", FAILING)
    broken, judged = lines(run("check", "--json", case, sound))
    assert "packs: found nothing; allowed: this key is required" in broken["error"]
    assert judged["passed"] is False
