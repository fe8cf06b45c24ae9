"""nbgrader's whole cycle over a class of every kind, beside `zonelib mark` on the same files."""

import csv
import subprocess
import sys
from dataclasses import dataclass
from html import unescape
from pathlib import Path

import pytest

from tests.desk.course import ASSIGNMENT, ROOT, make_course
from tests.desk.submitted import CASES, SCRIPT, Case
from zonelib.desk.run import mark_folder

pytestmark = pytest.mark.notebook
CYCLE = "generate_assignment hw -- lay -- autograde hw -- generate_feedback hw -- export"


@dataclass(frozen=True)
class Done:
    home: Path
    desk: dict[str, dict[str, str]]
    nbgrader: dict[str, dict[str, str]]
    filled: list[str]


def table(path: Path, key: str) -> dict[str, dict[str, str]]:
    with path.open(newline="", encoding="utf-8") as file:
        return {row[key]: row for row in csv.DictReader(file)}


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Done:
    home = tmp_path_factory.mktemp("course")
    make_course(home)
    command = [sys.executable, "-m", "tests.desk.cycle", str(home), *CYCLE.split()]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=900, check=False)
    assert ran.returncode == 0, ran.stderr[-4000:]
    mark_folder(home, home / "marked")
    desk = table(home / "marked" / "marks.csv", "trainee")
    return Done(home, desk, table(home / "grades.csv", "student_id"), ran.stdout.split())


def pages(done: Done, trainee: str) -> tuple[str, str]:
    """Return the feedback pages of the desk and of nbgrader."""
    own = done.home / "marked" / "feedback" / f"{trainee}.html"
    theirs = done.home / "feedback" / trainee / ASSIGNMENT / f"{ASSIGNMENT}.html"
    return own.read_text(encoding="utf-8"), theirs.read_text(encoding="utf-8")


@pytest.mark.parametrize("case", [pytest.param(case, id=case.trainee) for case in CASES])
def test_each_gets_its_mark_and_the_reason_on_both_sides(done: Done, case: Case) -> None:
    row, grade = done.desk[case.trainee], done.nbgrader[case.trainee]
    assert float(row["score"]) == case.mark
    assert row["score"] == grade["score"]
    assert row["max"] == grade["max_score"] == "10.0"
    for page in pages(done, case.trainee):
        assert case.words in unescape(page)


def test_nobody_is_left_out(done: Done) -> None:
    names = {case.trainee for case in CASES}
    assert set(done.desk) == set(done.nbgrader) == names


def test_no_code_of_a_trainee_is_run(done: Done) -> None:
    assert list(done.home.rglob("ran.txt")) == []


def test_only_missing_notebooks_are_filled_in(done: Done) -> None:
    assert done.filled == [f"submitted/handin-alone/{ASSIGNMENT}/{ASSIGNMENT}.ipynb"]


def test_no_markup_of_a_trainee_is_rendered(done: Done) -> None:
    own, theirs = pages(done, "markup")
    assert SCRIPT not in own
    assert SCRIPT not in theirs
    assert "<script" not in own
    assert "&lt;script&gt;alert(1)" in theirs


def test_a_time_that_looks_like_a_formula_is_only_text(done: Done) -> None:
    assert done.desk["markup"]["handed_in"] == f"'={SCRIPT}"


def test_the_released_notebook_asks_for_no_code(done: Done) -> None:
    released = (done.home / "exercises" / ASSIGNMENT / f"{ASSIGNMENT}.ipynb").read_text(encoding="utf-8")
    assert "raise " not in released
    assert "There is nothing to type here." in released
