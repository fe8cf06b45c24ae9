"""Remove what is stored of people: one candidate, or all that is older than so many days."""

import csv
import io
import json
import os
import shutil
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.bag import Item
from zonelib.desk.contents import read_items
from zonelib.desk.kept import FOLDER
from zonelib.desk.plain import cell, file_name
from zonelib.desk.writing import write_text
from zonelib.site.faults import Fault, FileFault

__all__ = ["Removal", "removals", "remove"]

TREES = ("submitted", "autograded", "feedback", "handouts", "variants")
"""Folders of a course in which each candidate has a folder or a file of its own."""

HANDED_IN = (".json", ".ipynb", ".txt", ".zip", "")

DAY = 86400.0

Erase = Callable[[], None]


@dataclass(frozen=True)
class Removal:
    """One thing to remove, in words, and the doing of it."""

    words: str
    erase: Erase


def removals(folder: Path, *, candidate: str = "", older_than: float | None = None) -> list[Removal]:
    """Return what would be removed from a folder; nothing is touched yet.

    Parameters
    ----------
    folder : Path
        A course, or a folder of results or of what was handed in.
    candidate : str
        A candidate number, or the name of a trainee's folder; or "".
    older_than : float, optional
        Age from which files of people go [days].

    Raises
    ------
    FileFault
        If there is no such folder.
    """
    if not folder.is_dir():
        raise FileFault(str(folder), [Fault("the folder", "nothing there", "a folder to remove from")])
    if candidate:
        return [*_of_candidate(folder.resolve(), candidate)]
    return [*_older(folder.resolve(), time.time() - (older_than or 0.0) * DAY)]


def remove(found: Sequence[Removal]) -> int:
    """Remove what was found, and return how many things that were."""
    for one in found:
        one.erase()
    return len(found)


# --- one candidate


def _of_candidate(folder: Path, candidate: str) -> Iterator[Removal]:
    names = {candidate, file_name(candidate)}
    gone: list[Path] = []
    for path in _walk(folder):
        if any(path.is_relative_to(one) for one in gone):
            continue
        if path.is_dir() and not path.is_symlink() and path.name in names:
            gone.append(path)
            yield _whole(path, folder)
        elif path.is_file() and not path.is_symlink():
            yield from _in_file(path, folder, candidate, names)
    yield from _gradebooks(folder, candidate)


def _in_file(path: Path, folder: Path, candidate: str, names: set[str]) -> Iterator[Removal]:
    """Yield what has to go of one file: all of it, its rows, or its lines."""
    if path.stem in names or path.name.partition(".")[0] in names or _stated(path) == candidate:
        yield _whole(path, folder)
    elif path.suffix == ".csv":
        yield from _rows(path, folder, candidate)
    elif path.suffix == ".jsonl":
        yield from _lines(path, folder, _of(candidate))
    elif path.name == "troubles.txt":
        yield from _lines(path, folder, lambda line: line.startswith(f"{candidate}: "))


def _stated(path: Path) -> str:
    """Return the candidate number that a file handed in states, whatever it is called."""
    if path.suffix.lower() not in (".json", ".ipynb", ".txt", ".zip", "") or path.name.endswith(
        ".bundle.json"
    ):
        return ""
    return read_items([Item(path, path.name)]).candidate


def _of(candidate: str) -> Callable[[str], bool]:
    def named(line: str) -> bool:
        with suppress(ValueError, AttributeError):
            data = json.loads(line)
            return candidate in (data.get("trainee"), data.get("candidate"))
        return False

    return named


def _rows(path: Path, folder: Path, candidate: str) -> Iterator[Removal]:
    """Yield the rows of a table in which the first cell, or one named candidate or trainee, is this one."""
    with path.open(newline="", encoding="utf-8-sig", errors="replace") as file:
        rows = list(csv.reader(file))
    heads = [one.strip().lower() for one in rows[0]] if rows else []
    columns = [heads.index(one) for one in ("trainee", "candidate", "student_id") if one in heads]
    left = [
        row
        for row in rows
        if not any(len(row) > at and row[at] in (candidate, cell(candidate)) for at in columns)
    ]
    if len(left) < len(rows):
        words = f"{len(rows) - len(left)} rows of {path.relative_to(folder)}"
        yield Removal(words, lambda: _rewrite(path, left))


def _rewrite(path: Path, rows: list[list[str]]) -> None:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    write_text(path, text.getvalue())


def _lines(path: Path, folder: Path, named: Callable[[str], bool]) -> Iterator[Removal]:
    with path.open(encoding="utf-8", errors="replace") as file:
        count = sum(named(line) for line in file)
    if count:
        words = f"{count} lines of {path.relative_to(folder)}"
        yield Removal(words, lambda: _without(path, named))


def _without(path: Path, named: Callable[[str], bool]) -> None:
    lines = path.read_text(encoding="utf-8", errors="replace").splitlines(keepends=True)
    write_text(path, "".join(line for line in lines if not named(line)))


def _gradebooks(folder: Path, candidate: str) -> Iterator[Removal]:
    """Yield the candidate in nbgrader's gradebook, through nbgrader's own interface."""
    path = folder / "gradebook.db"
    if not path.is_file():
        return
    try:
        from nbgrader.api import Gradebook, MissingEntry
    except ImportError:
        return
    with Gradebook(f"sqlite:///{path}") as book:
        try:
            book.find_student(candidate)
        except MissingEntry:
            return

    def erase() -> None:
        with Gradebook(f"sqlite:///{path}") as opened:
            opened.remove_student(candidate)

    yield Removal(f"{candidate} and all marks in gradebook.db", erase)


# --- by age


def _older(folder: Path, since: float) -> Iterator[Removal]:
    """Yield what was handed in, given out or marked, and has not been changed since then."""
    results = [path.parent for path in _walk(folder) if path.name == FOLDER and path.is_dir()]
    old = [path for path in results if path != folder and _newest(path) < since]
    yield from (_whole(path, folder) for path in old)
    for tree in _people(folder):
        if tree.parent not in old:
            for path in sorted(tree.iterdir()):
                if not path.is_symlink() and _newest(path) < since:
                    yield _whole(path, folder)


def _people(folder: Path) -> list[Path]:
    """Return the folders that hold one thing for each person: of the course, and of any results in it."""
    trees = (*TREES, FOLDER)
    own = [path for path in (folder, *_walk(folder)) if path.is_dir() and path.name in trees]
    return [path for path in own if not path.is_symlink() and path.parent.name not in TREES]


def _newest(path: Path) -> float:
    files = [one for one in (path, *_walk(path)) if one.is_file()] if path.is_dir() else [path]
    return max((one.lstat().st_mtime for one in files), default=path.lstat().st_mtime)


# --- both


def _walk(folder: Path) -> Iterator[Path]:
    """Yield folders before what is in them; links are not followed."""
    for home, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if name != ".git")
        yield from (Path(home) / name for name in (*folders, *sorted(files)))


def _whole(path: Path, folder: Path) -> Removal:
    kind = "the folder" if path.is_dir() else "the file"
    return Removal(f"{kind} {path.relative_to(folder)}", lambda: _unlink(path))


def _unlink(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)
