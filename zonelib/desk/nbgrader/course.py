"""What a course tells nbgrader, so that answers are marked without running any notebook."""

import os
import shutil
import sys
from pathlib import Path
from typing import Any

from nbgrader.preprocessors import (
    AssignLatePenalties,
    CheckCellMetadata,
    ClearOutput,
    OverwriteCells,
    OverwriteKernelspec,
    SaveAutoGrades,
)

from zonelib.desk.nbgrader.grading import GradeFromAnswer
from zonelib.desk.nbgrader.plain_notebook import PlainNotebook
from zonelib.desk.nbgrader.restoring import RestoreCells
from zonelib.desk.released import TREES
from zonelib.exercise.notebook import STUB

__all__ = ["course", "find_alembic"]

SOURCE, RELEASED = TREES

NO_ALEMBIC = (
    "nbgrader makes its gradebook with the program alembic, and alembic is not on the path. "
    "Install zonelib with its nbgrader part, or activate the environment that holds it."
)


def course(config: Any, *, run_code: bool = False, course_id: str = "") -> None:
    """Set up nbgrader for a course, from within its ``nbgrader_config.py``.

    Parameters
    ----------
    config : traitlets.config.Config
        What ``get_config()`` returns there.
    run_code : bool
        Leave nbgrader's own steps in place, which run each notebook under the tutor's account; only for
        courses whose trainees write code.
    course_id : str
        The course's name on nbgrader's exchange; without one nothing can be released there.

    Raises
    ------
    SystemExit
        If nbgrader could not make its gradebook.
    """
    find_alembic()
    _folders(config)
    if course_id:
        config.CourseDirectory.course_id = course_id
    # nbgrader's own stub raises an error, and Run All Cells would stop there.
    config.ClearSolutions.code_stub = {"python": STUB}
    config.GenerateAssignment.post_convert_hook = drop_released_answers
    if not run_code:
        _mark_from_answers(config)


def _mark_from_answers(config: Any) -> None:
    config.Autograde.exporter_class = PlainNotebook
    config.Autograde.sanitize_preprocessors = [
        ClearOutput,
        RestoreCells,
        OverwriteKernelspec,
        OverwriteCells,
        CheckCellMetadata,
    ]
    config.Autograde.autograde_preprocessors = [
        GradeFromAnswer,
        SaveAutoGrades,
        AssignLatePenalties,
        CheckCellMetadata,
    ]


def _folders(config: Any) -> None:
    config.CourseDirectory.source_directory = SOURCE
    config.CourseDirectory.release_directory = RELEASED
    # Its own name differs from ours by one letter.
    config.CourseDirectory.solution_directory = "worked"
    config.Autograde.exclude_overwriting = _answers_of_the_tutor()
    config.FileNameCollectorPlugin.valid_ext = [".ipynb", ".json"]


def _answers_of_the_tutor() -> dict[str, list[str]]:
    """Return what a tutor saved beside the source: it must not replace what trainees handed in."""
    saved: dict[str, list[str]] = {}
    for home in Path(SOURCE).glob("*"):
        saved[home.name] = [str(path.relative_to(home)) for path in _saved(home)]
    return saved


def _saved(home: Path) -> list[Path]:
    """Return the answers and hand-in files that working through a notebook leaves beside it."""
    return [path for path in (*home.glob("answers/**/*"), *home.glob("hand-in-*.json")) if path.is_file()]


def drop_released_answers(assignment: str, **_: Any) -> None:
    """Remove what the tutor saved beside the source from what is released: nbgrader copies every file."""
    home = Path(RELEASED) / assignment
    for path in _saved(home):
        path.unlink()
    shutil.rmtree(home / "answers", ignore_errors=True)


def find_alembic() -> None:
    """Put this environment's programs on the path: nbgrader calls one of them by its bare name."""
    if shutil.which("alembic") is None:
        os.environ["PATH"] = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", "")])
    if shutil.which("alembic") is None:
        raise SystemExit(NO_ALEMBIC)
