"""Change a mark of a marked class: find it, note the change, and say so on the feedback page."""

import difflib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.changed import show_changes
from zonelib.desk.overrides import Change, add_change, read_changes
from zonelib.desk.plain import cell
from zonelib.desk.report.reading import Row, read_marks
from zonelib.desk.work import page_path
from zonelib.site.faults import Fault, FileFault

__all__ = ["Asked", "change_mark"]

SHOWN = 12


@dataclass(frozen=True)
class Asked:
    """Whose mark of which exercise; the assignment may be left out where only one asks it."""

    trainee: str
    exercise: str
    assignment: str = ""


def change_mark(folder: Path, asked: Asked, *, score: float | None, reason: str, by: str = "tutor") -> Change:
    """Change a mark, or take a change back where `score` is None, and show it on the feedback page.

    Raises
    ------
    FileFault
        If there is no such mark, the new one is out of bounds, or the reason is missing.
    """
    row = _row(read_marks(folder).rows, asked, folder)
    key = row.trainee, row.assignment, row.exercise
    change = add_change(
        folder, key, computed=row.computed, most=row.points, score=score, reason=reason, by=by
    )
    show_changes(page_path(folder, asked.trainee), key[0], read_changes(folder))
    return change


def _row(rows: Sequence[Row], asked: Asked, folder: Path) -> Row:
    """Return the one row that is asked for."""
    of_trainee = [row for row in rows if row.trainee == cell(asked.trainee)]
    if not of_trainee:
        raise _unknown(folder, "the trainee", asked.trainee, sorted({row.trainee for row in rows}))
    fit = [row for row in of_trainee if row.exercise == asked.exercise]
    if not fit:
        raise _unknown(folder, "the exercise", asked.exercise, sorted({row.exercise for row in of_trainee}))
    named = [row for row in fit if asked.assignment in ("", row.assignment)]
    if len(named) != 1:
        found = asked.assignment or "two assignments that ask it"
        raise _unknown(folder, "--assignment", found, [row.assignment for row in fit])
    return named[0]


def _unknown(folder: Path, what: str, found: str, allowed: Sequence[str]) -> FileFault:
    near = difflib.get_close_matches(found, allowed, n=1)
    listed = ", ".join(allowed[:SHOWN]) + (" and more" if len(allowed) > SHOWN else "")
    told = f"{listed} (did you mean {near[0]}?)" if near else listed
    return FileFault(str(folder / "marks.csv"), [Fault(what, found, told)])
