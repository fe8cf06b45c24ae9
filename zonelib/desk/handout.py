"""Give out a homework: nbgrader's source and release, and a zip for each trainee where wanted."""

import json
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from zonelib.desk.classlist import ClassList
from zonelib.desk.parcel import CANDIDATE, write_parcel
from zonelib.desk.plain import RESERVED, file_name
from zonelib.desk.released import TREES
from zonelib.desk.released_notebook import released_text
from zonelib.desk.rooms import rooms_for, write_rooms
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.model import Exercise
from zonelib.exercise.notebook import source_notebook, write_homework
from zonelib.rules.course import Course, course_for
from zonelib.site.faults import Fault, FileFault

__all__ = ["HANDOUTS", "Handout", "Wanted", "hand_out"]

HANDOUTS = "handouts"
"""Folder of a course with the zips, one for each trainee."""

SOURCE, RELEASED = TREES
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_\-]{0,59}")

CONFIG = '''"""The course's settings for nbgrader, read by each of its commands run from this folder."""

from zonelib.desk.nbgrader import course

course(get_config(), course_id={name})  # noqa: F821 - nbgrader puts it there
'''


@dataclass(frozen=True)
class Wanted:
    """What is to be given out.

    Attributes
    ----------
    names : sequence of str
        Exercises: names of the bank, or paths of exercise files.
    assignment, title : str
        Name of the assignment, and the notebook's heading.
    classlist : ClassList
        Who is in the class.
    variants, zips : bool
        Whether each trainee gets a room of their own, and a zip.
    """

    names: Sequence[str]
    assignment: str
    title: str
    classlist: ClassList
    variants: bool = False
    zips: bool = False


@dataclass(frozen=True)
class Handout:
    """What was written.

    `released` is None where each trainee has a room of their own: then there is nothing to release to all.
    `known` tells whether nbgrader knows the assignment and the class.
    """

    source: Path
    released: Path | None
    zips: tuple[Path, ...]
    known: bool


def hand_out(wanted: Wanted, home: Path, *, course: Course | None = None, nbgrader: bool = True) -> Handout:
    """Write an assignment into the folder of a course, ready to be given out.

    Parameters
    ----------
    wanted : Wanted
        What is to be given out.
    home : Path
        The course's folder; it is made if need be.
    course : Course, optional
        Readings and sign-offs; by default the course that `home` belongs to.
    nbgrader : bool
        Whether nbgrader, where it is installed, makes the release and learns of the class.

    Raises
    ------
    FileFault
        If an exercise cannot be read or released, or what is wanted does not go together.
    """
    _refuse(wanted)
    course = course or course_for(home)
    source = home / SOURCE / wanted.assignment
    write_homework(wanted.names, source, title=wanted.title, course=course)
    _configured(home)
    known = nbgrader and find_spec("nbgrader") is not None
    if known:
        _tell_nbgrader(home, wanted)
    notebook = json.loads((source / f"{wanted.assignment}.ipynb").read_text(encoding="utf-8"))
    if not (wanted.variants or known):
        _release(home, wanted.assignment, released_text(notebook))
    zips = tuple(_zips(wanted, home, notebook, course)) if wanted.zips or wanted.variants else ()
    return Handout(source, None if wanted.variants else home / RELEASED / wanted.assignment, zips, known)


def _refuse(wanted: Wanted) -> None:
    if not NAME.fullmatch(wanted.assignment):
        allowed = "letters, digits, dashes and underscores, 60 in all"
        raise FileFault("the command", [Fault("--assignment", f'"{wanted.assignment[:60]}"', allowed)])
    if (wanted.variants or wanted.zips) and not wanted.classlist.names:
        asked = "--variants" if wanted.variants else "--zip"
        raise FileFault("the command", [Fault(asked, "no class list", "--class CLASS.csv as well")])


def _configured(home: Path) -> None:
    path = home / "nbgrader_config.py"
    if not path.exists():
        name = re.sub(r"[^A-Za-z0-9_-]+", "-", home.resolve().name).strip("-") or "course"
        path.write_text(CONFIG.format(name=json.dumps(name)), encoding="utf-8", newline="\n")


def _tell_nbgrader(home: Path, wanted: Wanted) -> None:
    """Have nbgrader learn the assignment and the class: the numbers only, never a name."""
    from nbgrader.api import Gradebook

    command = [sys.executable, "-m", "nbgrader", "generate_assignment", wanted.assignment, "--force"]
    ran = subprocess.run(  # noqa: S603 - the name has been held to letters, digits and dashes
        command, cwd=home, capture_output=True, text=True, check=False
    )
    if ran.returncode:
        found = (ran.stderr.strip().splitlines() or ["no reason"])[-1]
        allowed = "a course that nbgrader can release; see nbgrader_config.py there"
        raise FileFault(str(home), [Fault("nbgrader", found, allowed)])
    if wanted.variants:
        _withdraw(home / RELEASED / wanted.assignment)
    with Gradebook(f"sqlite:///{home.resolve() / 'gradebook.db'}") as book:
        for number in wanted.classlist.names:
            book.update_or_create_student(number)


def _withdraw(folder: Path) -> None:
    """Take back what nbgrader has released for all: an answer to it would answer nobody's own room."""
    for path in sorted(folder.iterdir()):
        path.unlink()
    folder.rmdir()


def _release(home: Path, assignment: str, notebook: str) -> None:
    folder = home / RELEASED / assignment
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{assignment}.ipynb").write_text(notebook, encoding="utf-8", newline="\n")
    for path in (home / SOURCE / assignment).glob("*.bundle.json"):
        read_bundle(path).write(folder)


def _zips(wanted: Wanted, home: Path, notebook: dict[str, Any], course: Course | None) -> Iterator[Path]:
    """Write a zip for each trainee, with the trainee's own rooms where wanted."""
    plain = [read_bundle(home / SOURCE / wanted.assignment / f"{one}.bundle.json") for one in _ids(wanted)]
    shared = {f"{one.exercise.id}.bundle.json": one.text + "\n" for one in plain}
    shared[f"{wanted.assignment}.ipynb"] = released_text(notebook)
    if not wanted.variants:
        for number in wanted.classlist.names:
            yield _parcel(home, wanted, number, shared)
        return
    given: list[tuple[str, str, str, str]] = []
    for number, rooms in rooms_for(
        wanted.names, wanted.classlist.names, home=home, assignment=wanted.assignment, course=course
    ):
        given += [(number, name, _hash(text), text) for name, (_, text) in rooms.items()]
        own = {f"{name}.bundle.json": text + "\n" for name, (_, text) in rooms.items()}
        read = [rooms[one.id][0] if one.id in rooms else one for one in _read(wanted)]
        own[f"{wanted.assignment}.ipynb"] = released_text(source_notebook(read, title=wanted.title))
        yield _parcel(home, wanted, number, shared | own)
    write_rooms(home, wanted.assignment, given)


def _parcel(home: Path, wanted: Wanted, number: str, files: dict[str, str]) -> Path:
    # The class list has each number once, capitals or not, so that no two zips meet.
    plain = re.fullmatch(r"[A-Za-z0-9_\-]+", number) and not RESERVED.match(number)
    path = home / HANDOUTS / wanted.assignment / f"{number if plain else file_name(number)}.zip"
    return write_parcel(path, wanted.assignment, files | {CANDIDATE: f"{number}\n"})


def _read(wanted: Wanted) -> list[Exercise]:
    return [read_exercise(exercise_path(name)) for name in wanted.names]


def _ids(wanted: Wanted) -> list[str]:
    return [one.id for one in _read(wanted)]


def _hash(text: str) -> str:
    return Bundle(json.loads(text)).hash
