"""Take a class through nbgrader's cycle in one process: `python cycle.py COURSE`, run from the repository.

The commands are nbgrader's own, with the configuration they find in the course; only the seconds that each
takes to load nbgrader are spent once.
"""

import os
import sys
from pathlib import Path

from nbgrader.apps import AutogradeApp, ExportApp, GenerateAssignmentApp, GenerateFeedbackApp

from tests.desk.course import ASSIGNMENT, Class, make_course
from tests.desk.submitted import CASES
from zonelib.desk.fill import fill_notebooks


def run(app: type, *words: str) -> None:
    """Run one command."""
    one = app.instance()  # type: ignore[attr-defined]  # nbgrader ships no types
    one.initialize(list(words))
    one.start()
    app.clear_instance()  # type: ignore[attr-defined]


def cycle(home: Path) -> None:
    """Release, hand in, fill in, mark, tell, export."""
    bundle = make_course(home)
    os.chdir(home)
    run(GenerateAssignmentApp, ASSIGNMENT)
    room = Class(home, bundle)
    for case in CASES:
        case.lay(room, case.trainee)
    for path in fill_notebooks(home):
        print(path.relative_to(home).as_posix())  # noqa: T201 - what the test reads
    run(AutogradeApp, ASSIGNMENT)
    run(GenerateFeedbackApp, ASSIGNMENT)
    run(ExportApp)


if __name__ == "__main__":
    cycle(Path(sys.argv[1]).resolve())
