"""Rooms of their own for the trainees of a class, and the key that tells whose is whose."""

import csv
import io
import os
import secrets
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from zonelib.desk.plain import file_name
from zonelib.desk.released import GIVEN, VARIANTS
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.model import Exercise
from zonelib.rules.course import Course
from zonelib.site.faults import Fault, FileFault

__all__ = ["KEY", "course_key", "rooms_for", "write_rooms"]

KEY = "key.txt"
BYTES = 32
PRIVATE = 0o600

Rooms = dict[str, tuple[Exercise, str]]
"""For each exercise of a trainee the exercise in that room, and its bundle's text."""


def course_key(home: Path) -> bytes:
    """Return the key of a course; it is made once, and only its owner may read it.

    Raises
    ------
    FileFault
        If the file holds something else.
    """
    path = home / VARIANTS / KEY
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, PRIVATE), "w") as file:
            file.write(f"{secrets.token_hex(BYTES)}\n")
    try:
        return bytes.fromhex(path.read_text(encoding="utf-8").strip())
    except ValueError as error:
        allowed = "the key that zonelib handout wrote; without it, whose room is whose cannot be told"
        raise FileFault(str(path), [Fault("the key", "something else", allowed)]) from error


def rooms_for(
    names: Sequence[str], candidates: Iterable[str], *, home: Path, assignment: str, course: Course | None
) -> Iterator[tuple[str, Rooms]]:
    """Yield for each candidate the exercises that vary, in a room of this candidate's own.

    Raises
    ------
    FileFault
        If none of the exercises varies, or one gives no rooms.
    """
    from zonelib.coach.variants import seed_for
    from zonelib.coach.variants.vary import family_of

    read = {name: read_exercise(exercise_path(name)) for name in names}
    families = [
        family_of(one, folder=exercise_path(name).parent, course=course)
        for name, one in read.items()
        if one.variants is not None
    ]
    if not families:
        allowed = "at least one exercise with a table [variants]; or no --variants"
        raise FileFault("the command", [Fault("--variants", "no exercise that varies", allowed)])
    key = course_key(home)
    for candidate in candidates:
        seed = seed_for(key, course=assignment, candidate=candidate)
        rooms = [family.room(seed) for family in families]
        yield candidate, {one.exercise.id: (one.exercise, one.bundle.text) for one in rooms}


def write_rooms(home: Path, assignment: str, given: Iterable[tuple[str, str, str, str]]) -> Path:
    """Write what each trainee was given: candidate, exercise, hash and text of the bundle.

    Returns
    -------
    Path
        The list of who was given which.
    """
    folder = home / VARIANTS / assignment
    listed = io.StringIO()
    table = csv.writer(listed, lineterminator="\n")
    table.writerow(["candidate", "exercise", "bundle"])
    for candidate, exercise, hashed, text in given:
        own = folder / file_name(candidate)
        own.mkdir(parents=True, exist_ok=True)
        (own / f"{exercise}.bundle.json").write_text(text + "\n", encoding="utf-8", newline="\n")
        table.writerow([candidate, exercise, hashed])
    path = folder / GIVEN
    path.write_text(listed.getvalue(), encoding="utf-8", newline="\n")
    return path
