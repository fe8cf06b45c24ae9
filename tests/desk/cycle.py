"""Run nbgrader's commands in one process: `python cycle.py COURSE COMMAND [WORD]... [-- COMMAND ...]`.

The commands are nbgrader's own, with the configuration they find in the course; only the seconds that each
takes to load nbgrader are spent once. One more, `lay`, hands in for the whole class of submitted.py.
"""

import os
import sys
from pathlib import Path
from typing import Any

from nbgrader.apps import AutogradeApp, ExportApp, GenerateAssignmentApp, GenerateFeedbackApp

APPS: dict[str, Any] = {
    "generate_assignment": GenerateAssignmentApp,
    "autograde": AutogradeApp,
    "generate_feedback": GenerateFeedbackApp,
    "export": ExportApp,
}


def run(name: str, *words: str) -> None:
    """Run one command."""
    if name == "lay":
        lay()
        return
    app = APPS[name].instance()
    app.initialize(list(words))
    app.start()
    APPS[name].clear_instance()


def lay() -> None:
    """Hand in for every trainee, and fill in the notebooks that are missing."""
    from tests.desk.course import ASSIGNMENT, NAME, Class  # found only when run as a module of the repository
    from tests.desk.submitted import CASES
    from zonelib.desk.fill import fill_notebooks
    from zonelib.exercise.bundle import read_bundle

    home = Path.cwd()
    room = Class(home, read_bundle(home / "solutions" / ASSIGNMENT / f"{NAME}.bundle.json"))
    for case in CASES:
        case.lay(room, case.trainee)
    for path in fill_notebooks(home):
        print(path.relative_to(home).as_posix())  # noqa: T201 - what the test reads


def parts(words: list[str]) -> list[list[str]]:
    """Split words at each ``--``."""
    split: list[list[str]] = [[]]
    for word in words:
        if word == "--":
            split.append([])
        else:
            split[-1].append(word)
    return split


if __name__ == "__main__":
    os.chdir(sys.argv[1])
    for command in parts(sys.argv[2:]):
        run(*command)
