"""Write a class's marks into nbgrader's gradebook, through nbgrader's own interface."""

import math
import warnings
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter
from typing import Any

from zonelib.desk.late import time_in
from zonelib.desk.overrides import Change, Key
from zonelib.desk.plain import cell, plain
from zonelib.desk.released import TREES, Released
from zonelib.desk.rows import Row
from zonelib.site.faults import Fault, FileFault

__all__ = ["Written", "database_of", "handed_over", "write_gradebook"]

LONGEST = 128
"""Characters that nbgrader keeps of a trainee's name."""

Places = Mapping[str, tuple[str, float]]
"""For each exercise of an assignment the notebook its cell stands in, and what the cell is worth."""

Changed = Mapping[Key, Change]
"""For each mark that a tutor changed the latest change."""


@dataclass(frozen=True)
class Written:
    """What was written, and where."""

    database: str
    trainees: int
    scores: int


def database_of(released: Released) -> str:
    """Return the address of the gradebook of the course that the bundles come from.

    Raises
    ------
    FileFault
        If they do not come from a course.
    """
    tree = released.folder.resolve()
    if tree.name not in TREES:
        allowed = f"bundles in the {' or '.join(TREES)} of a course; or name it with --database"
        raise FileFault(str(tree), [Fault("--gradebook", "no course that these bundles belong to", allowed)])
    return f"sqlite:///{tree.parent / 'gradebook.db'}"


def write_gradebook(
    rows: Iterable[Row], released: Released, *, database: str = "", history: Iterable[Change] = ()
) -> Written:
    """Write rows into the gradebook: marks as earned, and what lateness takes off beside them.

    Parameters
    ----------
    rows : iterable of Row
        The mark sheet, trainee by trainee.
    released : Released
        What was marked from; what the gradebook does not know of it yet is added.
    database : str
        Address of the gradebook, as SQLAlchemy takes it; by default that of the course.
    history : iterable of Change
        Marks that a tutor changed; nbgrader keeps them beside the computed ones, and they count.

    Raises
    ------
    FileFault
        If nbgrader is not installed.
    """
    address = database or database_of(released)
    changed = {one.key: one for one in history}
    trainees = scores = 0
    with warnings.catch_warnings(), _opened(address) as book:
        # Its models predate the installed SQLAlchemy, which warns of relationships that are only read.
        warnings.filterwarnings("ignore", module="nbgrader")
        places = {name: _places(book, name, released) for name in released.assignments}
        for _, own in groupby(rows, key=attrgetter("trainee")):
            trainees += 1
            scores += _trainee(book, list(own), places, changed)
    return Written(address, trainees, scores)


def _opened(address: str) -> Any:
    try:
        from nbgrader.api import Gradebook
    except ImportError as error:
        allowed = 'zonelib with its nbgrader part: pip install "zonelib[nbgrader]"'
        raise FileFault("the command", [Fault("--gradebook", "no nbgrader installed", allowed)]) from error
    from zonelib.desk.nbgrader.course import find_alembic

    find_alembic()
    return Gradebook(address)


def _places(book: Any, assignment: str, released: Released) -> Places:
    """Return where the cells of an assignment are, after adding what is missing."""
    from nbgrader.api import MissingEntry

    try:
        notebooks = book.find_assignment(assignment).notebooks
    except MissingEntry:
        notebooks = [book.update_or_create_notebook(assignment, _named(book, assignment))]
    found = {cell.name: (one.name, float(cell.max_score)) for one in notebooks for cell in one.grade_cells}
    for name, bundle in released.assignments[assignment].items():
        if name not in found:
            points = sum(rule.marks for rule in bundle.criteria)
            home = notebooks[0].name
            book.update_or_create_grade_cell(name, home, assignment, max_score=points, cell_type="code")
            found[name] = home, points
    return found


def _named(book: Any, assignment: str) -> str:
    name: str = book.update_or_create_assignment(assignment).name
    return name


def _trainee(book: Any, rows: list[Row], places: Mapping[str, Places], changed: Changed) -> int:
    """Write one trainee's marks; where nothing was handed in, nbgrader shall say so as well."""
    trainee = plain(rows[0].trainee)[:LONGEST]
    book.update_or_create_student(trainee)
    written = 0
    for assignment, own in groupby(rows, key=attrgetter("assignment")):
        one = list(own)
        if any(row.source or _key(row) in changed for row in one):
            _submission(book, trainee, assignment, one)
            written += _scores(book, trainee, one, places[assignment], changed)
    return written


def _submission(book: Any, trainee: str, assignment: str, rows: list[Row]) -> None:
    """Have a submission there, with the latest time that can be read."""
    times = [when for when in (time_in(row.handed_in) for row in rows) if when]
    stated = {"timestamp": max(times).replace(tzinfo=None)} if times else {}
    book.update_or_create_submission(assignment, trainee, **stated)


def _scores(book: Any, trainee: str, rows: list[Row], places: Places, changed: Changed) -> int:
    taken: dict[str, float] = defaultdict(float)
    for row in rows:
        notebook, points = places[row.exercise]
        grade = book.find_grade(row.exercise, notebook, row.assignment, trainee)
        grade.auto_score = handed_over(row.earned, row.max, points)
        grade.needs_manual_grade = False
        if change := changed.get(_key(row)):
            grade.manual_score = _by_hand(row, change, points)
        taken[notebook] += handed_over(row.earned - row.score, row.max, points)
    for notebook, penalty in taken.items():
        one = book.find_submission_notebook(notebook, rows[0].assignment, trainee)
        one.late_submission_penalty = penalty
        one.needs_manual_grade = False
    book.db.commit()
    return len(rows)


def _key(row: Row) -> Key:
    """Return the key under which a tutor changes a mark."""
    return cell(row.trainee), cell(row.assignment), cell(row.exercise)


def _by_hand(row: Row, change: Change, points: float) -> float | None:
    """Return a tutor's mark as nbgrader counts it: it takes off for lateness from any mark."""
    if change.score is None:
        return None
    return handed_over(change.score + row.earned - row.score, row.max, points)


def handed_over(score: float, whole: float, points: float) -> float:
    """Return a mark as nbgrader must get it: scaled, finite, rounded, then clamped to a cell's worth."""
    share = score if whole == points else score / whole * points
    return min(max(round(share, 4), 0.0), points) if math.isfinite(share) else 0.0
