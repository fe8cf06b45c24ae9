"""Read back what a marking run wrote, with the marks that a tutor changed."""

import csv
import json
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from zonelib.desk.overrides import Change, Key, in_force, read_changes
from zonelib.desk.plain import cell
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.site.faults import Fault, FileFault
from zonelib.site.tolerance import below

__all__ = ["ClassMarks", "Row", "read_marks"]

HOW = "a folder that zonelib mark --out has written"


@dataclass(frozen=True)
class Row:
    """One mark of the sheet with what stands behind it.

    Attributes
    ----------
    trainee, assignment, exercise : str
        Whose mark it is.
    computed, points : float
        What the program gave, and the marks to be had.
    handed_in : bool
        Whether an answer was found.
    note : str
        As in the mark sheet.
    bundle, status, edition : str
        What it was marked from, how that went, and by which edition.
    answer : dict or None
        The answer, where it could be judged.
    clauses : mapping
        For each clause that played a part whether it was satisfied.
    rules : mapping
        For each clause the rules that rest on it here.
    change : Change or None
        The tutor's own mark, where one is in force.
    earned : float or None
        What the answer itself earned, before anything was taken off for lateness.
    misconception : str
        Which one explains the answer, or "".
    """

    trainee: str
    assignment: str
    exercise: str
    computed: float
    points: float
    handed_in: bool
    note: str = ""
    bundle: str = ""
    status: str = ""
    edition: str = ""
    answer: dict[str, Any] | None = None
    clauses: Mapping[str, bool] = field(default_factory=dict)
    rules: Mapping[str, frozenset[str]] = field(default_factory=dict)
    change: Change | None = None
    earned: float | None = None
    misconception: str = ""

    @property
    def score(self) -> float:
        """The mark that counts."""
        changed = self.change.score if self.change else None
        return self.computed if changed is None else changed

    @property
    def share(self) -> float:
        """What the answer is worth, lateness aside, as a share of the marks to be had, 0 to 1."""
        worth = self.score if self.change or self.earned is None else self.earned
        return min(worth / self.points, 1.0) if self.points else 0.0

    @property
    def lost_marks(self) -> bool:
        """Whether an answer was judged and did not earn all marks by the program."""
        earned = self.computed if self.earned is None else self.earned
        return self.answer is not None and below(earned, self.points)


@dataclass(frozen=True)
class ClassMarks:
    """A marked class.

    Attributes
    ----------
    folder : Path
        Where it was read.
    rows : tuple of Row
        One for each trainee and exercise.
    history : tuple of Change
        Every change of a mark, those taken back too.
    """

    folder: Path
    rows: tuple[Row, ...]
    history: tuple[Change, ...] = ()

    @cached_property
    def bundles(self) -> dict[str, Bundle]:
        """What was marked from, by hash."""
        hashes = sorted({row.bundle for row in self.rows if row.bundle})
        paths = {one: self.folder / "bundles" / f"{one}.bundle.json" for one in hashes}
        return {one: read_bundle(path) for one, path in paths.items() if path.is_file()}

    @property
    def assignments(self) -> dict[str, list[Row]]:
        """The rows of each assignment."""
        found: dict[str, list[Row]] = defaultdict(list)
        for row in self.rows:
            found[row.assignment].append(row)
        return dict(found)

    @cached_property
    def by_trainee(self) -> dict[str, list[Row]]:
        """The rows of each trainee."""
        found: dict[str, list[Row]] = defaultdict(list)
        for row in self.rows:
            found[row.trainee].append(row)
        return dict(found)

    @property
    def trainees(self) -> tuple[str, ...]:
        """The trainees, by name."""
        return tuple(sorted(self.by_trainee))


def read_marks(folder: Path) -> ClassMarks:
    """Read the folder that a marking run wrote.

    Raises
    ------
    FileFault
        If it is no such folder, or a file in it cannot be read.
    """
    path = folder / "marks.csv"
    if not path.is_file():
        raise FileFault(str(folder), [Fault("marks.csv", "nothing there", HOW)])
    history = read_changes(folder)
    told, changed = _told(folder / "findings.jsonl"), in_force(history)
    try:
        with path.open(newline="", encoding="utf-8-sig") as file:
            rows = tuple(_row(line, told, changed) for line in csv.DictReader(file))
    except UNREAD as error:
        raise FileFault(str(path), [_unread("a line", error)]) from error
    return ClassMarks(folder, rows, history)


UNREAD = (KeyError, TypeError, AttributeError, ValueError, csv.Error, RecursionError)
"""What comes of a table that somebody has changed: other columns, cells, signs or depths."""


def _unread(place: str, error: Exception) -> Fault:
    if isinstance(error, UnicodeDecodeError):
        return Fault(place, "signs that are not UTF-8", f"text saved as CSV UTF-8, in {HOW}")
    named = f"no {error}" if isinstance(error, KeyError) else "what nothing can be read from"
    return Fault(place, "no JSON" if isinstance(error, json.JSONDecodeError) else named, HOW)


def _number(text: str) -> float:
    if not math.isfinite(number := float(text)):
        raise ValueError("a mark that is no number")
    return number


def _row(line: dict[str, str], told: Mapping[Key, dict[str, Any]], changed: Mapping[Key, Change]) -> Row:
    key = line["trainee"], line["assignment"], line["exercise"]
    return Row(
        *key, _number(line["score"]), _number(line["max"]), bool(line["source"]), line["note"],
        change=changed.get(key), **told.get(key, {}),
    )  # fmt: skip


def _told(path: Path) -> dict[Key, dict[str, Any]]:
    """Return what the findings tell of each mark."""
    told: dict[Key, dict[str, Any]] = {}
    read = 0
    try:
        for text in _lines(path):
            read += 1
            _tell(told, json.loads(text))
    except UNREAD as error:
        raise FileFault(str(path), [_unread(f"line {read}", error)]) from error
    return told


def _tell(told: dict[Key, dict[str, Any]], line: dict[str, Any]) -> None:
    key = cell(line["trainee"]), cell(line["assignment"]), cell(line["exercise"])
    about = told.setdefault(key, {"clauses": {}, "rules": {}})
    about |= {name: line.get(name, "") for name in ("bundle", "status", "edition")}
    about |= {name: line[name] for name in ("answer", "misconception") if name in line}
    if "gained" in line:
        about["earned"] = about.get("earned", 0.0) + float(line["gained"])
    if "finding" in line:
        _count(about, line["finding"])


def _count(about: dict[str, Any], finding: dict[str, Any]) -> None:
    """Count a clause as relevant where a finding applies, and as satisfied where none of them fails."""
    clause, status = finding["clause"], finding["status"]
    if clause and status in ("pass", "fail"):
        about["clauses"][clause] = about["clauses"].get(clause, True) and status == "pass"
        about["rules"][clause] = about["rules"].get(clause, frozenset()) | {finding["rule"]}


def _lines(path: Path) -> Iterator[str]:
    if path.is_file():
        with path.open(encoding="utf-8") as file:
            yield from file
