"""Answers of every kind are marked by nbgrader, by folder and by the one function, to the last digit."""

import csv
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from nbgrader.api import Gradebook

from tests.desk.course import ROOT
from tests.exercise.answers import exercise, marked, written
from zonelib.desk.run import mark_folder
from zonelib.exercise.notebook import write_homework

pytestmark = pytest.mark.notebook
KINDS = {
    "zones": "bedroom-zones", "route": "bedroom-over-the-ceiling", "protect": "store-given-run",
    "inspect": "dining-inspection", "fixings": "hall-pictures", "joist": "landing-joist",
    "choose": "landing-which-screws", "number": "utility-deepest-chase",
}  # fmt: skip
WHO = {"amy": None, "bob": 0, "cy": 1}
"""Who hands in the model answer, and who which of the typical ones that lose marks."""


def answer(name: str, which: int | None) -> dict[str, Any]:
    task = exercise(name)
    return dict(task.model) if which is None else dict(task.wrong[which]["answer"])


@dataclass(frozen=True)
class Marks:
    """Marks by trainee and exercise, from either side."""

    nbgrader: dict[tuple[str, str], float]
    folder: dict[tuple[str, str], float]


@pytest.fixture(scope="module")
def marks(tmp_path_factory: pytest.TempPathFactory) -> Marks:
    home = tmp_path_factory.mktemp("kinds")
    shutil.copy(ROOT / "nbgrader_config.py", home)
    write_homework(list(KINDS.values()), home / "solutions" / "hw", title="One of each kind")
    cycle(home, "generate_assignment", "hw")
    for trainee, which in WHO.items():
        folder = home / "submitted" / trainee / "hw"
        shutil.copytree(home / "exercises" / "hw", folder)
        (folder / "answers").mkdir(exist_ok=True)
        for name in KINDS.values():
            text = written(name, answer(name, which), candidate=trainee, variant=None)
            (folder / "answers" / f"{name}.json").write_text(text, encoding="utf-8")
    cycle(home, "autograde", "hw")
    return Marks(graded(home), by_folder(home))


def cycle(home: Path, *words: str) -> None:
    command = [sys.executable, "-m", "tests.desk.cycle", str(home), *words]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=900, check=False)
    assert ran.returncode == 0, ran.stderr[-4000:]


def graded(home: Path) -> dict[tuple[str, str], float]:
    with Gradebook(f"sqlite:///{home / 'gradebook.db'}") as book:
        return {
            (trainee, grade.name): grade.score
            for trainee in WHO
            for notebook in book.find_submission("hw", trainee).notebooks
            for grade in notebook.grades
        }


def by_folder(home: Path) -> dict[tuple[str, str], float]:
    mark_folder(home, home / "marked")
    with (home / "marked" / "marks.csv").open(newline="", encoding="utf-8") as file:
        return {(row["trainee"], row["exercise"]): float(row["score"]) for row in csv.DictReader(file)}


def test_every_kind_there_is_takes_part() -> None:
    assert {exercise(name).kind for name in KINDS.values()} == set(KINDS)


@pytest.mark.parametrize("trainee", WHO)
@pytest.mark.parametrize("kind", KINDS)
def test_the_three_ways_agree_to_the_last_digit(kind: str, trainee: str, marks: Marks) -> None:
    name = KINDS[kind]
    result = marked(name, answer(name, WHO[trainee]))
    alone = result.score
    assert marks.nbgrader[trainee, name] == alone
    assert marks.folder[trainee, name] == alone
    assert (alone == result.points) == (trainee == "amy")
