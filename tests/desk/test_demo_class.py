"""The made-up class from handout to gradebook: nbgrader exports what the desk has given."""

import csv
import math
import subprocess
import sys
from collections import defaultdict
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from nbgrader.api import Gradebook

from tests.desk.course import ROOT
from zonelib.desk.demo import ASSIGNMENT, EXERCISES, demo_class
from zonelib.desk.gradebook import handed_over, write_gradebook
from zonelib.desk.late import read_late_rule
from zonelib.desk.overrides import Change
from zonelib.desk.rows import Row
from zonelib.desk.run import Outcome, mark_folder
from zonelib.site.faults import FileFault

pytestmark = pytest.mark.notebook


@dataclass(frozen=True)
class Done:
    home: Path
    outcome: Outcome
    rows: list[Row]
    exported: dict[str, dict[str, str]]


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Done:
    made = demo_class(tmp_path_factory.mktemp("demo"))
    rule = read_late_rule(made.due.isoformat(), "10% per day, at most 50%")
    outcome = mark_folder(made.home, made.home / "marked", late=rule)
    for _ in range(2):  # a second time changes nothing
        write_gradebook(outcome.rows(), outcome.released)
    command = [sys.executable, "-m", "tests.desk.cycle", str(made.home), "export"]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=300, check=False)
    assert ran.returncode == 0, ran.stderr[-3000:]
    with (made.home / "grades.csv").open(newline="", encoding="utf-8") as file:
        exported = {row["student_id"]: row for row in csv.DictReader(file)}
    return Done(made.home, outcome, list(outcome.rows()), exported)


def sums(rows: list[Row]) -> dict[str, tuple[float, ...]]:
    """Return for each trainee the marks earned, those taken off, and those given."""
    total: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        total[row.trainee].append(row)
    columns = ("earned", "taken", "score")
    return {name: tuple(total_of(own, what) for what in columns) for name, own in total.items()}


def total_of(rows: list[Row], what: str) -> float:
    """Return the sum of one column; what was taken is the difference of the others."""
    return sum(row.earned - row.score if what == "taken" else getattr(row, what) for row in rows)


def test_nbgraders_own_export_gives_the_same_numbers(done: Done) -> None:
    own = sums(done.rows)
    assert len(own) == len(done.exported) == 29
    for name, (earned, taken, given) in own.items():
        row = done.exported[name]
        assert float(row["raw_score"]) == pytest.approx(earned)
        assert float(row["late_submission_penalty"]) == pytest.approx(taken)
        assert float(row["score"]) == pytest.approx(given)
        assert float(row["max_score"]) == 92.0
    assert sum(taken > 0 for _, taken, _ in own.values()) == 1


def test_every_single_mark_in_the_gradebook_is_that_of_the_sheet(done: Done) -> None:
    rows = {(row.trainee, row.exercise): row.earned for row in done.rows}
    with Gradebook(f"sqlite:///{done.home / 'gradebook.db'}") as book:
        for submission in book.assignment_submissions(ASSIGNMENT):
            grades = [grade for notebook in submission.notebooks for grade in notebook.grades]
            assert {grade.name for grade in grades} == set(EXERCISES)
            for grade in grades:
                assert grade.auto_score == rows.pop((submission.student.id, grade.name))
                assert math.isfinite(grade.auto_score)
                assert not grade.needs_manual_grade
    assert rows == {}


def test_the_class_is_neither_all_right_nor_all_wrong(done: Done) -> None:
    marked = [row for row in done.rows if row.status == "marked"]
    full = sum(row.earned == row.max for row in marked) / len(marked)
    assert 0.3 < full < 0.8
    assert {row.source for row in marked} == {"answers folder", "hand-in file", "notebook"}


def test_a_tutors_mark_counts_in_the_gradebook_until_it_is_taken_back(done: Done) -> None:
    row = next(one for one in done.rows if one.earned > one.score)
    key = row.trainee, row.assignment, row.exercise
    change = Change(*key, row.score, row.score + 0.5, "a reason", "tutor", "")
    address = f"sqlite:///{done.home / 'gradebook.db'}"
    for history, given in (((change,), row.score + 0.5), ((change, replace(change, score=None)), row.score)):
        write_gradebook(done.outcome.rows(), done.outcome.released, history=history)
        with Gradebook(address) as book:
            grade = book.find_grade(row.exercise, row.assignment, row.assignment, row.trainee)
            assert grade.score - (row.earned - row.score) == pytest.approx(given)
            assert grade.auto_score == row.earned


def test_a_gradebook_needs_a_course(done: Done) -> None:
    elsewhere = mark_folder(done.home, done.home / "again", bundles=done.home / "marked" / "bundles")
    with pytest.raises(FileFault, match="--gradebook: found no course that these bundles belong to"):
        write_gradebook(elsewhere.rows(), elsewhere.released)


@pytest.mark.parametrize(
    ("score", "whole", "points", "given"),
    [(2.5, 10.0, 10.0, 2.5), (5.0, 10.0, 4.0, 2.0), (11.0, 10.0, 10.0, 10.0), (-1.0, 10.0, 10.0, 0.0),
     (float("nan"), 10.0, 10.0, 0.0), (float("inf"), 10.0, 10.0, 0.0), (6.39525, 10.0, 10.0, 6.3952)],
)  # fmt: skip
def test_a_mark_handed_over_is_finite_and_within_its_cell(
    score: float, whole: float, points: float, given: float
) -> None:
    assert handed_over(score, whole, points) == given
