"""Marks that a tutor changed, with the reason: a file of its own that marking never touches."""

import csv
import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import astuple, dataclass, fields
from datetime import UTC, datetime
from pathlib import Path

from zonelib.desk.plain import cell, plain
from zonelib.site.faults import Fault, FileFault

__all__ = ["NAME", "STAMP", "Change", "Key", "add_change", "add_lines", "beyond", "in_force", "read_changes"]

NAME = "overrides.csv"
"""Beside the mark sheet. Lines are only ever added to it."""

STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
"""A time as a change states it; a line whose time somebody has rewritten keeps its place."""

Key = tuple[str, str, str]
"""Trainee, assignment and exercise, as they stand in the mark sheet."""


@dataclass(frozen=True)
class Change:
    """One line of the history.

    Attributes
    ----------
    trainee, assignment, exercise : str
        Whose mark, as it stands in the mark sheet.
    computed : float
        What the program gave when the mark was changed [marks].
    score : float or None
        What the tutor gives [marks]; None takes an earlier change back.
    reason, by, when : str
        Why, in which role, and at what time (UTC).
    """

    trainee: str
    assignment: str
    exercise: str
    computed: float
    score: float | None
    reason: str
    by: str
    when: str

    @property
    def key(self) -> Key:
        """Whose mark of which exercise."""
        return self.trainee, self.assignment, self.exercise


COLUMNS = tuple(field.name for field in fields(Change))


def read_changes(folder: Path) -> tuple[Change, ...]:
    """Return the history of changed marks, oldest first; none where there is no file.

    Raises
    ------
    FileFault
        With every line that is no change.
    """
    path = folder / NAME
    if not path.is_file():
        return ()
    try:
        with path.open(newline="", encoding="utf-8-sig") as file:
            lines = list(csv.DictReader(file))
    except (UnicodeDecodeError, csv.Error) as error:
        allowed = "the file as zonelib override wrote it, in UTF-8"
        raise FileFault(
            str(path), [Fault("the file", "bytes or lines that cannot be read", allowed)]
        ) from error
    read = [_change(line, number) for number, line in enumerate(lines, start=2)]
    faults = [one for one in read if isinstance(one, Fault)]
    if faults:
        raise FileFault(str(path), faults)
    return tuple(one for one in read if isinstance(one, Change))


def _change(line: dict[str, str | None], number: int) -> Change | Fault:
    texts = {name: line.get(name) or "" for name in COLUMNS}
    try:
        computed, score = float(texts["computed"]), float(texts["score"]) if texts["score"] else None
    except ValueError:
        computed, score = math.nan, None
    if not all(math.isfinite(one) and one >= 0 for one in (computed, score or 0.0)):
        found = f"computed {texts['computed']!r}, score {texts['score']!r}"
        return Fault(f"line {number}", found, "marks of 0 or more; no score takes a change back")
    numbers = {"computed": computed, "score": score}
    return Change(**{**texts, **numbers})  # type: ignore[arg-type]  # the two numbers replace their texts


def in_force(history: Iterable[Change]) -> dict[Key, Change]:
    """Return for each mark the latest change, where that was not to take one back.

    Lines that were brought from elsewhere stand below later ones, so their times count.
    """
    latest = {one.key: one for _, one in sorted(_timed(history), key=lambda pair: pair[0])}
    return {key: one for key, one in latest.items() if one.score is not None}


def _timed(history: Iterable[Change]) -> Iterator[tuple[str, Change]]:
    last = ""
    for one in history:
        last = one.when if STAMP.fullmatch(one.when) else last
        yield last, one


def add_change(
    folder: Path, key: Key, *, computed: float, most: float, score: float | None, reason: str, by: str
) -> Change:
    """Add a line to the history.

    Parameters
    ----------
    folder : Path
        Where the mark sheet lies.
    key : tuple of str
        Whose mark of which exercise.
    computed, most : float
        The program's mark, and the marks to be had.
    score : float or None
        The tutor's mark; None takes an earlier change back.
    reason, by : str
        Why, and in which role.

    Raises
    ------
    FileFault
        If the mark is out of bounds, the reason is missing, or there is nothing to take back.
    """
    history = read_changes(folder)
    faults = list(_faults(history, key, most=most, score=score, reason=reason))
    if faults:
        raise FileFault(str(folder / NAME), faults)
    when = _after(history, datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"))
    given = None if score is None else round(score, 4)
    trainee, assignment, exercise = map(cell, key)
    change = Change(trainee, assignment, exercise, computed, given, cell(reason), cell(by), when)
    add_lines(folder, [change])
    return change


def _after(history: Iterable[Change], now: str) -> str:
    """Return the time of a new change: never before one that is there, whatever the clock says."""
    return max([now, *(when for when, _ in _timed(history))])


def _faults(
    history: Iterable[Change], key: Key, *, most: float, score: float | None, reason: str
) -> Iterator[Fault]:
    if score is not None and not 0 <= score <= most:
        yield Fault("the mark", f"{score:g}", f"0 to {most:g}, the marks of {key[2]}")
    if score is None and key not in in_force(history):
        yield Fault("the change", "none in force", "a mark that was changed before, to take the change back")
    if not plain(reason):
        yield Fault("the reason", "nothing", "why the mark is changed, in a few words; the trainee reads it")


def beyond(changes: Iterable[Change], known: Iterable[Change]) -> list[Change]:
    """Return the changes that are not known yet, in their order; one that was made twice counts twice."""
    left = Counter(known)
    new = []
    for one in changes:
        if left[one]:
            left[one] -= 1
        else:
            new.append(one)
    return new


def add_lines(folder: Path, changes: Iterable[Change]) -> None:
    """Add lines to the history as they are."""
    path = folder / NAME
    new = not path.exists()
    with path.open("a", newline="", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\r\n")
        if new:
            table.writerow(COLUMNS)
        for change in changes:
            table.writerow("" if one is None else one for one in astuple(change))
