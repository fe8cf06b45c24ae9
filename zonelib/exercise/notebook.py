"""Write a homework: the nbgrader source notebook of some exercises, and their bundles beside it."""

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from zonelib.exercise.bundle import freeze
from zonelib.exercise.kinds import NAMES, kind_named
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.marking import points_of
from zonelib.exercise.model import Exercise
from zonelib.exercise.solved import must_be_solved
from zonelib.rules.course import Course, course_for
from zonelib.site.faults import Fault, FileFault

__all__ = ["STUB", "renew_homework", "source_notebook", "write_homework"]

STUB = "# There is nothing to type here."
"""What stands in a released notebook where the model answer stood."""

LONGEST_ID = 64
"""What the notebook format allows a cell's id."""

Cell = dict[str, Any]

OURS = "zonelib"
"""Our own key in the notebook's metadata: from it a homework can be written again."""

INTRODUCTION = """# {title}

**To start:** choose Run → Run All Cells in the menu.

1. Read the question, then {act}. Every change is saved at once.
2. Press **Check** as often as you like. It says what {part} meets or fails, and why.
3. At the end press **Hand in**. Send the file it writes to your tutor.

{safety}
"""

ROUTES_ONLY = {"act": "draw the cable on the picture", "part": "each part of your cable"}
MIXED = {"act": "give your answer below it", "part": "each part of your answer"}

OWN_CELLS = ("introduction", "start", "closing", "hand-in")

CLOSING = """## Hand in

Press **Hand in** below. It writes one small file with all your answers, and says where it lies.
Send that file to your tutor. You may hand in again: the newest answer counts.
"""

KERNEL = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


def write_homework(
    names: Sequence[str], folder: Path, *, title: str, course: Course | None = None
) -> list[Path]:
    """Write a homework's notebook and bundles.

    Parameters
    ----------
    names : sequence of str
        Exercises: names of the bank, or paths of exercise files.
    folder : Path
        Where to write; the notebook takes its name.
    title : str
        The notebook's heading.
    course : Course, optional
        What is frozen into the bundles; by default the course that `folder` belongs to.

    Returns
    -------
    list of Path
        What was written: the notebook first.

    Raises
    ------
    FileFault
        If an exercise cannot be read, or a course's readings leave it without a full answer.
    """
    course = course or course_for(folder)
    _kept_apart(names, folder)
    exercises = [_with_a_pad(name) for name in names]
    _told_apart(names, exercises)
    pairs = zip(exercises, names, strict=True)
    bundles = [freeze(one, folder=exercise_path(name).parent, course=course) for one, name in pairs]
    if course:
        must_be_solved(bundles, exercises, course)
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{folder.resolve().name}.ipynb"
    text = json.dumps(
        source_notebook(exercises, title=title, names=names), indent=1, ensure_ascii=False, sort_keys=True
    )
    path.write_text(text + "\n", encoding="utf-8", newline="\n")
    return [path, *(bundle.write(folder) for bundle in bundles)]


def _kept_apart(names: Sequence[str], folder: Path) -> None:
    """Refuse exercise files that lie where everything is given out: they hold the model answers."""
    inside = [one for one in names if exercise_path(one).resolve().is_relative_to(folder.resolve())]
    if inside:
        allowed = (
            "another folder: what lies in this one is given to the trainees, and it holds the model answer"
        )
        raise FileFault(
            inside[0], [Fault("the file's place", f"the homework's own folder, {folder}", allowed)]
        )


def _told_apart(names: Sequence[str], exercises: Sequence[Exercise]) -> None:
    """Refuse an id that two exercises share, or that a cell of every notebook has: marks go by it."""
    seen = set(OWN_CELLS)
    for name, exercise in zip(names, exercises, strict=True):
        if exercise.id in seen:
            what = "a name of the notebook's own" if exercise.id in OWN_CELLS else "that of another one here"
            raise FileFault(
                name, [Fault("id", f'"{exercise.id}", {what}', "an id of its own for each exercise")]
            )
        seen.add(exercise.id)


def _with_a_pad(name: str) -> Exercise:
    exercise = read_exercise(exercise_path(name))
    kind = kind_named(exercise.kind)
    beyond = kind.beyond_pad(exercise) if kind.pad else ""
    if beyond or not kind.pad:
        kinds = ", ".join(one for one in NAMES if kind_named(one).pad)
        found = f'"{exercise.kind}"{beyond}, which a notebook has no pad for yet'
        raise FileFault(name, [Fault("kind", found, kinds + (" on a single wall" if beyond else ""))])
    return exercise


def renew_homework(folder: Path, *, course: Course | None = None) -> list[Path]:
    """Write a homework again as its notebook says it was written, from the exercise files as they are now.

    Raises
    ------
    FileFault
        If the folder holds no notebook written here, or an exercise cannot be read.
    """
    path = folder / f"{folder.resolve().name}.ipynb"
    try:
        named = json.loads(path.read_text(encoding="utf-8"))["metadata"][OURS]
        names, title = list(named["exercises"]), str(named["title"])
    except (OSError, ValueError, KeyError, TypeError) as error:
        allowed = "a notebook written by zonelib exercise notebook"
        raise FileFault(
            str(path), [Fault("the notebook", "none that says what it was made of", allowed)]
        ) from error
    return write_homework(names, folder, title=title, course=course)


def source_notebook(
    exercises: Sequence[Exercise], *, title: str, names: Sequence[str] = ()
) -> dict[str, Any]:
    """Return the nbgrader source notebook of some exercises, model answers in their solution regions.

    `names` are what it keeps to be written again; by default the exercises' ids, as of the bank.
    """
    named = {"title": title, "exercises": list(names or (exercise.id for exercise in exercises))}
    cells = list(_cells(exercises, title))
    return {"cells": cells, "metadata": {**KERNEL, OURS: named}, "nbformat": 4, "nbformat_minor": 5}


def _cells(exercises: Sequence[Exercise], title: str) -> Iterator[Cell]:
    safety = freeze(exercises[0]).pack.safety
    words = f"> **Safety.** {safety.aid} {safety.lay}"
    acts = ROUTES_ONLY if all(one.kind == "route" for one in exercises) else MIXED
    yield _text("introduction", INTRODUCTION.format(title=title, safety=words, **acts))
    yield _code("start", "from zonelib.sheet import Sheet, grade, hand_in")
    for number, exercise in enumerate(exercises, 1):
        yield _text(f"{exercise.id}-question", _question(number, exercise))
        yield _code(f"{exercise.id}-pad", _pad(exercise), solution=True)
        yield _code(exercise.id, f'grade("{exercise.id}")', points=points_of(freeze(exercise)))
    yield _text("closing", CLOSING)
    yield _code("hand-in", f"{_solution(_asserts(exercises))}\nhand_in()", solution=True)


def _question(number: int, exercise: Exercise) -> str:
    """Return heading, question, and what the marks are for."""
    bundle = freeze(exercise)
    lines = [f"- {rule.words}: {rule.marks:g}" for rule in bundle.criteria]
    marks = f"**Marks:** {points_of(bundle):g} in all."
    return "\n".join([f"## {number}. {exercise.title}", "", exercise.question.strip(), "", marks, "", *lines])


def _pad(exercise: Exercise) -> str:
    sets = [f"    {key}={_python(value)},\n" for key, value in exercise.model.items()]
    answer = _solution(f"sheet.set(\n{''.join(sets)})")
    return f'sheet = Sheet("{exercise.id}")\n{answer}\nsheet'


def _asserts(exercises: Sequence[Exercise]) -> str:
    """Lines that fail where a model answer no longer earns full marks."""
    points = {exercise.id: points_of(freeze(exercise)) for exercise in exercises}
    return "\n".join(f'assert grade("{name}") == {most:g}, "{name}"' for name, most in points.items())


def _solution(lines: str) -> str:
    return f"### BEGIN SOLUTION\n{lines}\n### END SOLUTION"


def _python(value: Any) -> str:
    """Return data as Python text, strings in double quotes as elsewhere."""
    return re.sub(r"'([^'\"]*)'", r'"\1"', repr(value))


def _text(name: str, source: str) -> Cell:
    return _cell("markdown", name, source.strip(), metadata=_nbgrader(name))


def _code(name: str, source: str, *, solution: bool = False, points: float | None = None) -> Cell:
    metadata = _nbgrader(name, solution=solution, points=points)
    return _cell("code", name, source, metadata=metadata, outputs=[], execution_count=None)


def _cell(kind: str, name: str, source: str, **parts: Any) -> Cell:
    lines = source.splitlines(keepends=True)
    return {"cell_type": kind, "id": name[:LONGEST_ID], "source": lines, **parts}


def _nbgrader(name: str, *, solution: bool = False, points: float | None = None) -> dict[str, Any]:
    """Return what nbgrader reads: a pad is a solution, a marked cell is a grade, all else is locked text."""
    stated: dict[str, Any] = {"schema_version": 3, "grade_id": name, "task": False}
    stated |= {"solution": solution, "locked": not solution, "grade": points is not None}
    return {"nbgrader": stated | ({} if points is None else {"points": points})}
