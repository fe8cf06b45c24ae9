"""What nbgrader releases today is what lies in exercises/."""

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.course.trees import HOMEWORK, RELEASED, given_out, notebook, steady

pytestmark = pytest.mark.notebook


@pytest.mark.parametrize("name", HOMEWORK)
def test_the_released_tree_is_up_to_date(name: str, root: Path, tmp_path: Path) -> None:
    shutil.copy(root / "nbgrader_config.py", tmp_path)
    shutil.copytree(
        root / "solutions", tmp_path / "solutions", ignore=shutil.ignore_patterns("answers", "hand-in-*")
    )
    run = subprocess.run(
        ["nbgrader", "generate_assignment", name], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    fresh = tmp_path / "exercises"
    assert steady(notebook(fresh, name)) == steady(notebook(RELEASED, name)), (
        "run nbgrader generate_assignment --force"
    )
    bundles = {file: data for file, data in given_out(fresh, name).items() if file.endswith(".json")}
    assert bundles == {f: data for f, data in given_out(RELEASED, name).items() if f.endswith(".json")}
