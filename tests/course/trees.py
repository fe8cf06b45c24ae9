"""The homework's two trees: what a tutor has, and what is given out."""

import json
import re
from pathlib import Path
from typing import Any

from tests.house.files import ROOT
from zonelib.exercise.notebook import STUB

SOURCE, RELEASED = ROOT / "solutions", ROOT / "exercises"
HOMEWORK = sorted(path.parent.name for path in SOURCE.glob("*/*.ipynb"))
REGION = re.compile(r"### BEGIN SOLUTION.*?### END SOLUTION", re.DOTALL)
PUT_IN_BY_NBGRADER = ("checksum", "cell_type", "deletable", "editable")

Notebook = dict[str, Any]


def notebook(tree: Path, name: str) -> Notebook:
    read: Notebook = json.loads((tree / name / f"{name}.ipynb").read_text(encoding="utf-8"))
    return read


def given_out(tree: Path, name: str) -> dict[str, bytes]:
    """Return every file of a homework's folder but what a trainee or tutor saved while working."""
    home = tree / name
    files = [path for path in home.rglob("*") if path.is_file() and "answers" not in path.parts]
    made = (".ipynb_checkpoints", "hand-in-")
    return {
        str(path.relative_to(home)): path.read_bytes()
        for path in files
        if not any(mark in str(path.relative_to(home)) for mark in made)
    }


def stripped(source: Notebook) -> list[tuple[str, str]]:
    """Return each cell's kind and text as it must be once its model answer is taken out."""
    return [(cell["cell_type"], REGION.sub(STUB, "".join(cell["source"]))) for cell in source["cells"]]


def steady(released: Notebook) -> list[dict[str, Any]]:
    """Return the cells without what differs from one release to the next."""
    return [
        {
            "kind": cell["cell_type"],
            "source": "".join(cell["source"]),
            "nbgrader": {
                k: v for k, v in cell["metadata"]["nbgrader"].items() if k not in PUT_IN_BY_NBGRADER
            },
            "outputs": cell.get("outputs", []),
        }
        for cell in released["cells"]
    ]
