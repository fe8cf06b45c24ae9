"""Each solution notebook runs, ends in asserts that can fail, and saves nothing in the repository."""

import json
from pathlib import Path

import pytest
from nbclient.exceptions import CellExecutionError

from tests.course.trees import HOMEWORK, RELEASED, SOURCE
from tests.exercise.answers import bundle
from tests.notebooks.running import copy_of, run
from zonelib.exercise import mark, read_record

pytestmark = pytest.mark.notebook


@pytest.fixture
def solutions(tmp_path: Path) -> Path:
    return copy_of(SOURCE, tmp_path)


def files(tree: Path) -> dict[Path, int]:
    """Return every file under a tree with the time of its last change [ns]."""
    return {path: path.stat().st_mtime_ns for path in tree.rglob("*") if path.is_file()}


@pytest.mark.parametrize("name", HOMEWORK)
def test_a_solution_runs_and_what_it_saves_earns_full_marks(name: str, solutions: Path) -> None:
    before = files(SOURCE)
    ran = run(solutions / name / f"{name}.ipynb")
    for one in ran.metadata["zonelib"]["exercises"]:
        saved = read_record((solutions / name / "answers" / f"{one}.json").read_bytes())
        result = mark(bundle(one), saved)
        assert result.score == result.points > 0
    assert files(SOURCE) == before
    assert not (SOURCE / name / "answers").exists(), (
        "answers saved in solutions/ would be given out: remove them"
    )


def test_the_asserts_at_its_end_fail_when_an_answer_is_no_longer_right(solutions: Path) -> None:
    with pytest.raises(CellExecutionError, match=r"AssertionError\S*: kitchen-hatch"):
        run(solutions / "hw1" / "hw1.ipynb", changed=('"earthed-steel-conduit"', '"plastic-conduit"'))


def test_the_released_notebook_runs_untouched_and_earns_nothing(tmp_path: Path) -> None:
    ran = run(copy_of(RELEASED, tmp_path) / "hw1" / "hw1.ipynb")
    marks = [
        output.data["text/plain"]
        for cell in ran.cells
        if cell.metadata["nbgrader"].get("grade")
        for output in cell.outputs
        if output.output_type == "execute_result"
    ]
    assert marks == ["0.0", "0.0", "0.0"]
    assert json.dumps(ran).count("Nothing is drawn yet.") >= 3
