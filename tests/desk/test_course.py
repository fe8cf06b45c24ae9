"""The course's settings, and the traps of nbgrader they close."""

import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from nbgrader.api import Gradebook
from traitlets.config import Config

from tests.desk.course import ASSIGNMENT, MODEL, NAME, make_course, record
from zonelib.desk.marked import Marked
from zonelib.desk.nbgrader import course
from zonelib.desk.nbgrader.course import drop_released_answers
from zonelib.desk.nbgrader.grading import GradeFromAnswer, handed_over
from zonelib.desk.nbgrader.plain_notebook import plain_notebook
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import mark

pytestmark = pytest.mark.notebook


@pytest.fixture
def bundle(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bundle:
    """Return the bundle of a course in the current folder."""
    monkeypatch.chdir(tmp_path)
    return make_course(tmp_path)


def row(bundle: Bundle, score: float) -> Marked:
    result = mark(bundle, AnswerRecord.model_validate(record(bundle.hash, MODEL)))
    return Marked("a", ASSIGNMENT, bundle, replace(result, score=score))


@pytest.mark.parametrize(
    ("score", "points", "given"),
    [
        (2.5, 10.0, 2.5),
        (6.39525, 10.0, 6.3952),
        (0.0, 10.0, 0.0),
        (10.00001, 10.0, 10.0),
        (-1.0, 10.0, 0.0),
        (float("nan"), 10.0, 0.0),
        (float("inf"), 10.0, 0.0),
        (5.0, 4.0, 2.0),
    ],
)
def test_a_mark_is_finite_rounded_and_then_clamped(
    bundle: Bundle, score: float, points: float, given: float
) -> None:
    mark_given = handed_over(row(bundle, score), points)
    assert mark_given == given
    assert type(mark_given) is float


def test_what_a_tutor_saved_is_neither_released_nor_put_over_a_trainees(bundle: Bundle) -> None:
    source, released = Path("solutions") / ASSIGNMENT, Path("exercises") / ASSIGNMENT
    (source / "answers" / ".kept").mkdir(parents=True)
    for name in (f"answers/{NAME}.json", "answers/.kept/candidate.txt", "hand-in-ABCDE-FGHIJ.json"):
        (source / name).write_text("{}")
    config = Config()
    course(config)
    kept = {str(Path(name)) for name in config.Autograde.exclude_overwriting[ASSIGNMENT]}
    assert kept == {f"answers/{NAME}.json", "answers/.kept/candidate.txt", "hand-in-ABCDE-FGHIJ.json"}
    shutil.copytree(source, released)
    drop_released_answers(ASSIGNMENT, student=".", notebooks=[])
    left = sorted(path.name for path in released.rglob("*"))
    assert left == sorted([bundle.write(source).name, f"{ASSIGNMENT}.ipynb"])


def test_without_alembic_the_reason_is_told(bundle: Bundle, monkeypatch: pytest.MonkeyPatch) -> None:
    assert bundle.exercise.id == NAME
    monkeypatch.setenv("PATH", "")
    monkeypatch.setattr("sys.executable", "/nowhere/python")
    with pytest.raises(SystemExit, match="alembic is not on the path"):
        course(Config())


def test_alembic_beside_python_is_found_without_activating(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    course(Config())
    assert shutil.which("alembic")


def test_code_is_run_only_where_a_course_says_so() -> None:
    ours, theirs = Config(), Config()
    course(ours)
    course(theirs, run_code=True)
    assert GradeFromAnswer in ours.Autograde.autograde_preprocessors
    assert not [one for one in ours.Autograde.autograde_preprocessors if one.__name__ == "Execute"]
    assert "autograde_preprocessors" not in theirs.Autograde


class Courses:
    """What a preprocessor asks nbgrader's course folder for."""

    source_directory, submitted_directory = "solutions", "submitted"

    def format_path(self, step: str, student: str, assignment: str) -> str:
        return str(Path(step) / student / assignment)


def graded(cells: list[Any], names: dict[str, float], monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Run the marking step over cells whose gradebook knows the names with their points."""
    database = "sqlite:///gradebook.db"
    with Gradebook(database) as book:
        book.add_assignment(ASSIGNMENT)
        book.add_notebook(ASSIGNMENT, ASSIGNMENT)
        for name, points in names.items():
            book.add_grade_cell(name, ASSIGNMENT, ASSIGNMENT, max_score=points, cell_type="code")
    step = GradeFromAnswer()
    monkeypatch.setattr(GradeFromAnswer, "parent", type("Exporter", (), {"parent": None}))
    GradeFromAnswer.parent.parent = type("Converter", (), {"coursedir": Courses()})
    notebook = plain_notebook(json.dumps({"nbformat": 4, "cells": cells}))
    told = {"student": "amy", "assignment": ASSIGNMENT, "notebook": ASSIGNMENT, "db_url": database}
    step.preprocess(notebook, {"nbgrader": told})
    return list(notebook.cells)


def cell(name: str, *, solution: bool = False) -> dict[str, Any]:
    meta = {
        "grade_id": name,
        "grade": True,
        "solution": solution,
        "locked": not solution,
        "schema_version": 3,
    }
    return {"cell_type": "code", "source": "", "metadata": {"nbgrader": meta}}


def test_only_what_nbgrader_would_run_is_marked_and_nothing_earns_by_silence(
    bundle: Bundle, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = Path("submitted/amy") / ASSIGNMENT / "answers"
    folder.mkdir(parents=True)
    (folder / f"{NAME}.json").write_text(json.dumps(record(bundle.hash, MODEL)))
    cells = [cell(NAME), cell("essay", solution=True), cell("test-of-code")]
    first, by_hand, unknown = graded(cells, {NAME: 10.0, "essay": 5.0, "test-of-code": 3.0}, monkeypatch)
    assert first.outputs[1].data["text/plain"] == "10.0"
    assert "It reaches S1." in first.outputs[0].data["text/html"]
    assert by_hand.outputs == []
    assert unknown.outputs[1].data["text/plain"] == "0.0"
    assert "no bundle for this cell" in unknown.outputs[0].data["text/html"]


@pytest.mark.parametrize(
    "text",
    ["", "{}", "[]", '{"nbformat": 3, "cells": []}', '{"nbformat": 4, "cells": [{"cell_type": "code"}]}',
     '{"nbformat": 4, "cells": [5]}', '{"nbformat": 4, "cells": [{"cell_type": "heading", "source": ""}]}'],
)  # fmt: skip
def test_what_is_no_notebook_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"not a notebook|a cell|Expecting value"):
        plain_notebook(text)


def test_a_notebook_is_read_as_text_only() -> None:
    html = {"output_type": "display_data", "data": {"text/html": "<b>x</b>"}, "metadata": {}}
    mine = {"cell_type": "code", "source": ["a", "<b"], "outputs": [html], "metadata": {"tags": ["<b>"]}}
    cells = [mine, {"cell_type": "markdown", "source": "<b>x", "attachments": {"a": {}}},
             {"cell_type": "markdown", "source": "<i>ours"}]  # fmt: skip
    text = json.dumps({"nbformat": 4, "metadata": {"title": "<b>"}, "cells": cells})
    notebook = plain_notebook(text, known={"<i>ours"})
    assert [one.source for one in notebook.cells] == ["a<b", "&lt;b>x", "<i>ours"]
    assert notebook.cells[0].outputs == []
    assert [dict(one.metadata) for one in notebook.cells] == [{}, {}, {}]
    assert dict(notebook.metadata) == {}
