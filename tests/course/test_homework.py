"""The homework is what its exercise files say, and what is given out holds no model answer."""

import json
import re
import subprocess
from itertools import chain
from pathlib import Path

import nbformat
import pytest

from tests.course.trees import HOMEWORK, RELEASED, SOURCE, given_out, notebook, steady, stripped
from tests.exercise.answers import bundle, exercise
from zonelib.exercise import read_bundle
from zonelib.exercise.marking import points_of
from zonelib.exercise.notebook import STUB, source_notebook, write_homework


def exercises_of(name: str) -> list[str]:
    names: list[str] = notebook(SOURCE, name)["metadata"]["zonelib"]["exercises"]
    return names


def test_there_is_homework() -> None:
    assert "hw1" in HOMEWORK
    assert len(exercises_of("hw1")) == 3


def test_the_first_homework_rises_in_difficulty() -> None:
    steps = [exercise(one).difficulty for one in exercises_of("hw1")]
    assert steps == sorted(set(steps))


@pytest.mark.parametrize("name", HOMEWORK)
def test_the_source_is_what_its_exercise_files_give(name: str, tmp_path: Path) -> None:
    title = notebook(SOURCE, name)["metadata"]["zonelib"]["title"]
    write_homework(exercises_of(name), tmp_path / name, title=title)
    assert given_out(SOURCE, name) == given_out(tmp_path, name)


@pytest.mark.parametrize("name", HOMEWORK)
def test_the_released_bundles_are_those_of_the_bank(name: str) -> None:
    for one in exercises_of(name):
        assert read_bundle(RELEASED / name / f"{one}.bundle.json").hash == bundle(one).hash


@pytest.mark.parametrize("name", HOMEWORK)
def test_nothing_but_notebook_and_bundles_is_given_out(name: str) -> None:
    bundles = {f"{one}.bundle.json" for one in exercises_of(name)}
    for tree in (SOURCE, RELEASED):
        assert set(given_out(tree, name)) == {f"{name}.ipynb"} | bundles


@pytest.mark.parametrize("name", HOMEWORK)
def test_the_released_notebook_is_the_source_without_its_answers(name: str) -> None:
    released = steady(notebook(RELEASED, name))
    assert [(cell["kind"], cell["source"]) for cell in released] == stripped(notebook(SOURCE, name))
    assert [cell["outputs"] for cell in released if cell["outputs"]] == []


@pytest.mark.parametrize("name", HOMEWORK)
@pytest.mark.parametrize("tree", [SOURCE, RELEASED], ids=lambda tree: tree.name)
def test_the_notebook_is_well_formed_and_nbgrader_reads_its_marks(name: str, tree: Path) -> None:
    read = notebook(tree, name)
    nbformat.validate(read)
    marked = {
        c["metadata"]["nbgrader"]["grade_id"]: c for c in read["cells"] if c["metadata"]["nbgrader"]["grade"]
    }
    assert list(marked) == exercises_of(name)
    for one, cell in marked.items():
        kept = cell["metadata"]["nbgrader"]
        points = points_of(bundle(one))
        assert (kept["locked"], kept["solution"], kept["points"]) == (True, False, points)
        assert "".join(cell["source"]) == f'grade("{one}")'


def traces(name: str) -> set[str]:
    """Return what would give a model answer away: a run's corners, else each part of an answer whole."""
    model = exercise(name).model
    if "points" in model:
        return {f"{x:g},{y:g}" for x, y in model["points"][1:-1]}
    parts = (json.dumps(part, separators=(",", ":")) for part in model.values())
    return {part.replace(".0", "") for part in parts if len(part) > SHORTEST}


SHORTEST = 12
"""A shorter text may stand in a question by chance."""


@pytest.mark.parametrize("name", HOMEWORK)
def test_no_released_file_holds_a_model_answer(name: str) -> None:
    tight = {
        file: re.sub(r"\s+|\.0\b", "", data.decode()) for file, data in given_out(RELEASED, name).items()
    }
    clues = set(chain.from_iterable(traces(one) for one in exercises_of(name)))
    assert len(clues) >= len(exercises_of(name))
    assert {(file, clue) for file, text in tight.items() for clue in clues if clue in text} == set()
    assert [file for file, text in tight.items() if "SOLUTION" in text or "sheet.set" in text] == []


def test_a_model_answer_is_known_when_seen() -> None:
    text = re.sub(r"\s+", "", json.dumps(notebook(SOURCE, "hw1")))
    clues = set(chain.from_iterable(traces(one) for one in exercises_of("hw1")))
    assert {clue for clue in clues if clue not in text} == set()


@pytest.mark.parametrize("tree", ["lessons", "solutions", "exercises"])
def test_saved_answers_are_never_committed(tree: str, root: Path) -> None:
    def git(*words: str) -> str:
        return subprocess.run(["git", *words], cwd=root, capture_output=True, text=True, check=True).stdout

    saved = f"{tree}/hw1/answers/bedroom-drop.json"
    assert git("check-ignore", saved).strip() == saved
    assert [path for path in git("ls-files", tree).splitlines() if "/answers/" in path] == []


def test_a_pad_runs_before_anything_is_typed() -> None:
    """Run All Cells must get through: the stub is a comment, not an error."""
    pads = [cell for cell in notebook(RELEASED, "hw1")["cells"] if cell["metadata"]["nbgrader"]["solution"]]
    assert len(pads) == 4
    for cell in pads:
        compile("".join(cell["source"]), "cell", "exec")
        assert STUB in "".join(cell["source"])
        assert "raise" not in "".join(cell["source"])


def test_each_pad_asks_the_sheet_of_its_own_exercise() -> None:
    cells = source_notebook([exercise("bedroom-drop")], title="One")["cells"]
    pad = next(cell for cell in cells if cell["id"] == "bedroom-drop-pad")
    assert "".join(pad["source"]).startswith('sheet = Sheet("bedroom-drop")\n### BEGIN SOLUTION\n')
    assert "".join(pad["source"]).endswith("### END SOLUTION\nsheet")
