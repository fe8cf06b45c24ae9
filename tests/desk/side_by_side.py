"""The same submissions marked in four ways, side by side: `python -m tests.desk.side_by_side [GROWTH]`.

By nbgrader running each notebook, by nbgrader with our steps in place of that, and by `zonelib mark`: with
a look for what is misunderstood and without, for thirty trainees and ten times as many, by one process and
by two. Few trainees are run through nbgrader; what one more costs is taken from the difference between one
and three, so that the start of the program counts on no side. Times are processor time, of which a busy
machine adds little. GROWTH is the largest class for the second table.
"""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.desk.course import ROOT
from zonelib.desk.demo import ASSIGNMENT, demo_class

RUNNING = """
from zonelib.desk.nbgrader.course import RELEASED, SOURCE
c = get_config()
c.CourseDirectory.source_directory = SOURCE
c.CourseDirectory.release_directory = RELEASED
"""
"""Settings that leave nbgrader's own steps in place: each notebook is run, as a tutor's code."""

BY_FOLDER = ("C-001", "C-003", "C-005")
"""Trainees of the made-up class whose answers lie beside the notebook, where running it finds them."""

MARK = """
import resource, sys, time
from pathlib import Path
from zonelib.desk import marked, page, tables
from zonelib.desk.run import mark_folder
from zonelib.desk.spread import by_processes
if sys.argv[4] == "differing":
    marked.marks_made._most = page.reports_made._most = tables.lines_made._most = 0
if __name__ == "__main__":
    all_of = resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN
    used = lambda: sum(sum(resource.getrusage(who)[:2]) for who in all_of)
    start, begun = used(), time.monotonic()
    spread, ideas = by_processes(int(sys.argv[3])), sys.argv[4] == "ideas"
    mark_folder(Path(sys.argv[1]), Path(sys.argv[2]), afresh=True, ideas=ideas, spread=spread)
    most = max(resource.getrusage(who).ru_maxrss for who in all_of)
    print(used() - start, time.monotonic() - begun, most / 1024)
"""

CLASS = 30
TIMES = 3

ROW = "{:<52}{:>12}{:>10}{:>12}"


def row(*cells: str) -> None:
    """Print a row of a table at once."""
    sys.stdout.write(ROW.format(*cells) + "\n")
    sys.stdout.flush()


def used(command: Sequence[str], home: Path) -> tuple[float, float]:
    """Run a command; return the processor time it and all its own have used [s], and the most memory [MB]."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, cwd=home, capture_output=True, text=True, check=False)
    if done.returncode:
        raise SystemExit(done.stderr[-3000:])
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return spent, after.ru_maxrss / 1024


def course_of(home: Path, trainees: Sequence[str], *, running: bool) -> Path:
    """Return a copy of a course in which only these have handed in."""
    copy = home.with_name(f"{home.name}-{len(trainees)}-{'running' if running else 'ours'}")
    shutil.copytree(home, copy, ignore=shutil.ignore_patterns("submitted"))
    for one in trainees:
        shutil.copytree(home / "submitted" / one, copy / "submitted" / one)
    if running:
        (copy / "nbgrader_config.py").write_text(RUNNING, encoding="utf-8")
    return copy


def by_nbgrader(home: Path, *, running: bool) -> tuple[float, float]:
    """Return what one more trainee costs nbgrader [s], and the most memory of one process [MB]."""
    spent, most = [], 0.0
    for count in (1, 3):
        copy = course_of(home, BY_FOLDER[:count], running=running)
        command = [sys.executable, "-m", "nbgrader", "autograde", ASSIGNMENT]
        seconds, memory = used(command, copy)
        spent.append(seconds)
        most = max(most, memory)
    return (spent[1] - spent[0]) / 2, most


def by_desk(home: Path, *, jobs: int = 1, answers: str = "like") -> tuple[float, float, float]:
    """Return processor time, elapsed time [s] and the most memory of one process [MB] for a class.

    Of three runs the one that used least: others on the machine only ever add to it.
    """
    script = home.parent / "mark.py"
    script.write_text(MARK, encoding="utf-8")
    command = [sys.executable, str(script), str(home), str(home.parent / "marked"), str(jobs), answers]
    place = os.environ | {"PYTHONPATH": str(ROOT)}
    found = []
    for _ in range(TIMES):
        done = subprocess.run(command, capture_output=True, text=True, check=False, env=place)
        if done.returncode:
            raise SystemExit(done.stderr[-3000:])
        spent, elapsed, memory = map(float, done.stdout.split())
        found.append((spent, elapsed, memory))
    return min(found)


def ways(home: Path) -> None:
    """Print a row for each way of marking thirty trainees with ten exercises."""
    demo_class(home)
    generate = [sys.executable, "-m", "nbgrader", "generate_assignment", ASSIGNMENT, "--force"]
    used(generate, home)
    running, memory = by_nbgrader(home, running=True)
    row("30 trainees, 10 exercises", "a trainee", "ratio", "memory")
    row("nbgrader, running each notebook", f"{running:.2f} s", "1", f"{memory:.0f} MB")
    ours, memory = by_nbgrader(home, running=False)
    row("nbgrader, with our steps", f"{ours:.2f} s", f"{running / ours:.0f}", f"{memory:.0f} MB")
    whole = home.with_name("whole")
    demo_class(whole, trainees=10 * CLASS)
    for words, place, jobs, answers in (
        ("zonelib mark", home, 1, "ideas"),
        ("zonelib mark --no-ideas", home, 1, "like"),
        ("the same, were no two answers alike", home, 1, "differing"),
        ("zonelib mark, 300 trainees", whole, 1, "ideas"),
        ("zonelib mark --jobs 2, 300 trainees", whole, 2, "ideas"),
        ("zonelib mark --no-ideas, 300 trainees", whole, 1, "like"),
    ):
        spent, elapsed, memory = by_desk(place, jobs=jobs, answers=answers)
        each = spent / ((CLASS if place == home else 10 * CLASS) - 1)  # one hands in nothing
        told = f"{words}, {elapsed:.1f} s elapsed"
        row(told, f"{each:.3f} s", f"{running / each:.0f}", f"{memory:.0f} MB")


def growth(place: Path, most: int) -> None:
    """Print time and memory for classes of thirty and more."""
    row("two exercises", "a trainee", "", "memory")
    size = 30
    while size <= most:
        home = place / f"class-{size}"
        demo_class(home, trainees=size, exercises=("bedroom-drop", "landing-which-screws"))
        spent, _, memory = by_desk(home)
        row(f"{size} trainees", f"{spent / size * 1000:.1f} ms", "", f"{memory:.0f} MB")
        size *= 10


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        ways(Path(folder) / "course")
        growth(Path(folder), int(sys.argv[1]) if sys.argv[1:] else 300)
