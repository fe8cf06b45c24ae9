"""Change a mark of a marked class: find it, note the change, and say so wherever the trainee looks."""

import difflib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.changed import show_changes
from zonelib.desk.linked import Carried, carry_changes
from zonelib.desk.overrides import Change, add_change, read_changes
from zonelib.desk.plain import cell
from zonelib.desk.report.reading import Row, read_marks
from zonelib.desk.work import page_path
from zonelib.site.faults import Fault, FileFault

__all__ = ["Asked", "Changed", "change_mark"]

SHOWN = 12


@dataclass(frozen=True)
class Asked:
    """Whose mark of which exercise; the assignment may be left out where only one asks it."""

    trainee: str
    exercise: str
    assignment: str = ""


@dataclass(frozen=True)
class Changed:
    """A change that is kept; `server` tells how the server took it, None where the results are not of one."""

    change: Change
    server: Carried | None = None


def change_mark(
    folder: Path, asked: Asked, *, score: float | None, reason: str, by: str = "tutor",
    database: str | None = None,
) -> Changed:  # fmt: skip
    """Change a mark, or take a change back, and show it on the feedback page and on the server.

    Parameters
    ----------
    folder : Path
        Where the mark sheet lies.
    asked : Asked
        Whose mark of which exercise.
    score : float or None
        The tutor's mark; None takes the change before back.
    reason, by : str
        Why, and in which role.
    database : str, optional
        Path or address of the server's database, where the one noted in the folder does not do.

    Raises
    ------
    FileFault
        If there is no such mark, the new one is out of bounds, or the reason is missing.
    """
    row = _row(read_marks(folder).rows, asked, folder)
    key = row.trainee, row.assignment, row.exercise
    before = carry_changes(folder, database=database)  # what was changed elsewhere comes first
    change = add_change(
        folder, key, computed=row.computed, most=row.points, score=score, reason=reason, by=by
    )
    after = before if before is None or before.trouble else carry_changes(folder, database=database)
    _show(folder, {asked.trainee: row.trainee}, brought=before is not None and before.brought > 0)
    of_sitting = after is not None and after.link.sitting == row.assignment
    return Changed(change, after if of_sitting else None)


def _show(folder: Path, trainees: dict[str, str], *, brought: bool) -> None:
    """Put the changes into the pages of trainees, and of all whose marks were changed elsewhere."""
    history = read_changes(folder)
    others = {one.trainee: one.trainee for one in history} if brought else {}
    for name, told in (others | trainees).items():
        show_changes(page_path(folder, name), told, history)


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
