"""Time to mark a small class: by folder, through nbgrader with our adapter, and by running each notebook."""

import csv
import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.desk.course import ASSIGNMENT, MODEL, Class, make_course
from zonelib.desk.run import mark_folder

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="a class of four, one exercise")]
TRAINEES = [f"C-{number:03}" for number in range(1, 5)]

RUNNING = """
from zonelib.desk.nbgrader.course import RELEASED, SOURCE
c = get_config()
c.CourseDirectory.source_directory = SOURCE
c.CourseDirectory.release_directory = RELEASED
"""
"""Settings that leave nbgrader's own steps in place: each notebook is run, as a tutor's code."""


def command(home: Path, *words: str) -> None:
    line = [sys.executable, "-m", "nbgrader", *words]
    done = subprocess.run(line, cwd=home, capture_output=True, text=True, timeout=900, check=False)
    assert done.returncode == 0, done.stderr[-3000:]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Return a course in which each trainee has handed in a full answer."""
    bundle = make_course(tmp_path)
    command(tmp_path, "generate_assignment", ASSIGNMENT)
    room = Class(tmp_path, bundle)
    for trainee in TRAINEES:
        room.answer(trainee, MODEL)
    return tmp_path


def scores(home: Path) -> dict[str, float]:
    command(home, "export")
    with (home / "grades.csv").open(newline="", encoding="utf-8") as file:
        return {row["student_id"]: float(row["score"]) for row in csv.DictReader(file)}


FULL = dict.fromkeys(TRAINEES, 10.0)


def test_by_folder(benchmark: BenchmarkFixture, home: Path) -> None:
    outcome = benchmark.pedantic(lambda: mark_folder(home, home / "marked", afresh=True), rounds=3)
    assert {row.trainee: row.score for row in outcome.rows()} == FULL


def test_nbgrader_starts_and_finds_all_marked(benchmark: BenchmarkFixture, home: Path) -> None:
    command(home, "autograde", ASSIGNMENT)
    benchmark.pedantic(command, args=(home, "autograde", ASSIGNMENT), rounds=2)
    assert scores(home) == FULL


def test_nbgrader_with_our_adapter(benchmark: BenchmarkFixture, home: Path) -> None:
    command(home, "autograde", ASSIGNMENT)
    benchmark.pedantic(command, args=(home, "autograde", ASSIGNMENT, "--force"), rounds=2)
    assert scores(home) == FULL


def test_nbgrader_running_each_notebook(benchmark: BenchmarkFixture, home: Path) -> None:
    (home / "nbgrader_config.py").write_text(RUNNING, encoding="utf-8")
    benchmark.pedantic(command, args=(home, "autograde", ASSIGNMENT), rounds=1)
    assert scores(home) == FULL
