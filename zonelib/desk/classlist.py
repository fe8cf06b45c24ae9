"""The tutor's own list of a class: candidate numbers, and names that stay with the tutor."""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from zonelib.desk.plain import plain
from zonelib.site.faults import Fault, FileFault

__all__ = ["NUMBER", "ClassList", "read_class"]

NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9._\-]{0,39}")
"""The form of a candidate number; the sheet takes no other."""

FORM = "a letter or digit, then letters, digits, dots, dashes or underscores, 40 in all"
COLUMNS = "candidate, or candidate,name"
LARGEST = 2 * 1024 * 1024
MOST_FAULTS = 50


@dataclass(frozen=True)
class ClassList:
    """Who is in a class.

    Attributes
    ----------
    names : dict
        For each candidate number the name, or "". It is never written into what is given out.
    """

    names: dict[str, str] = field(default_factory=dict)

    def number_for(self, text: str) -> str:
        """Return the candidate number that a folder's or file's name stands for, or "".

        It is one that stands in the text, or that of a name that does. Where two would fit, neither does.
        """
        if text in self.names:
            return text
        words, longest = _words(text), self._longest
        found = {
            number
            for start in range(len(words))
            for end in range(start + 1, min(start + longest, len(words)) + 1)
            for number in self._sought.get(words[start:end], ())
        }
        return found.pop() if len(found) == 1 else ""

    @cached_property
    def _longest(self) -> int:
        return max(map(len, self._sought), default=0)

    @cached_property
    def _sought(self) -> dict[tuple[str, ...], set[str]]:
        """For the words of each number and name whose they are."""
        found: dict[tuple[str, ...], set[str]] = {}
        for number, name in self.names.items():
            for one in filter(None, (number, name)):
                found.setdefault(_words(one), set()).add(number)
        return found


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W_]+", text.casefold()))


def read_class(path: Path) -> ClassList:
    """Read a class list: a CSV file with the columns ``candidate`` and, if wanted, ``name``.

    Raises
    ------
    FileFault
        With every row that cannot be used.
    """
    rows = _rows(path)
    if not rows or [one.strip().lower() for one in rows[0]] not in (["candidate"], ["candidate", "name"]):
        found = (", ".join(map(plain, rows[0])) if rows else "") or "nothing"
        raise FileFault(str(path), [Fault("line 1", found, f"the names of the columns: {COLUMNS}")])
    names: dict[str, str] = {}
    faults = list(_read(rows, names))
    if not names and not faults:
        faults = [Fault("line 2", "nothing", "a candidate number on each line")]
    if faults:
        raise FileFault(str(path), faults[:MOST_FAULTS])
    return ClassList(names)


def _rows(path: Path) -> list[list[str]]:
    try:
        return list(csv.reader(_text(path).splitlines(), delimiter=_delimiter(path)))
    except csv.Error as error:
        told = [Fault("the file", "a line that is no line of a table", "a candidate number on each line")]
        raise FileFault(str(path), told) from error


def _text(path: Path) -> str:
    try:
        raw = path.read_bytes() if path.stat().st_size <= LARGEST else None
    except OSError as error:
        told = [Fault("the file", error.strerror or "nothing readable", "a class list you may read")]
        raise FileFault(str(path), told) from error
    if raw is None:
        raise FileFault(str(path), [Fault("the file", "more than 2 MB", "a class list of at most 2 MB")])
    try:
        return raw.decode("utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
    except UnicodeDecodeError as error:
        told = [Fault("the file", "bytes that are not UTF-8", "text saved as CSV UTF-8")]
        raise FileFault(str(path), told) from error


def _delimiter(path: Path) -> str:
    head = _text(path).partition("\n")[0]
    return next((sign for sign in (";", "\t") if sign in head), ",")


def _read(rows: list[list[str]], names: dict[str, str]) -> Iterator[Fault]:
    """Fill in the names row by row, and yield what is the matter with any."""
    taken: dict[str, int] = {}
    for line, row in enumerate(rows[1:], start=2):
        number, name, *more = [*(one.strip() for one in row), "", ""][: max(len(row), 2)]
        if not any((number, name, *more)):
            continue
        fault = _fault(number, more, taken)
        if fault:
            yield Fault(f"line {line}", *fault)
        else:
            taken[number.casefold()] = line
            names[number] = plain(name)


def _fault(number: str, more: list[str], taken: dict[str, int]) -> tuple[str, str] | None:
    """Return what was found and what is allowed, or None."""
    if any(more):
        return "more than two columns", COLUMNS
    if not NUMBER.fullmatch(number):
        return f'the candidate number "{plain(number)}"', FORM
    if number.casefold() in taken:
        found = f"{number}, which line {taken[number.casefold()]} has as well"
        return found, "each candidate number once, capitals or not"
    return None
