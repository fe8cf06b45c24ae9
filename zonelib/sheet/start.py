"""The start page: which lessons there are, and how far one has come."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from zonelib.coach.mastery.overview import Row, overview
from zonelib.coach.mastery.policy import policy
from zonelib.coach.mastery.record import Record
from zonelib.sheet.files import notebook_folder
from zonelib.sheet.lesson.page import say
from zonelib.sheet.progress import history
from zonelib.sheet.revision import bank
from zonelib.sheet.revision_plot import in_words, progress_png
from zonelib.sheet.revision_words import tell
from zonelib.sheet.showing import show

__all__ = ["Entry", "entries", "list_of", "progress"]

NUMBERED = "[0-9][0-9]-*.ipynb"
TITLE = re.compile(r"^# (\d+)\. (.+)$", re.MULTILINE)
GOAL = re.compile(r"^1\. (.+)$", re.MULTILINE)
MINUTES = re.compile(r"about (\d+) minutes")
PRACTICE = re.compile(r'from_bank\("([\w-]+)"\)')


@dataclass(frozen=True)
class Entry:
    """One lesson, as its own notebook says it.

    Attributes
    ----------
    file, title, goal : str
        Its file, its heading without the number, and the first thing one will be able to do.
    number, minutes : int
        Its number, and how long it takes.
    practice : tuple of str
        The exercises of the bank that are practised in it.
    """

    file: str
    title: str
    goal: str
    number: int
    minutes: int
    practice: tuple[str, ...]

    @property
    def line(self) -> str:
        """The lesson in one line of Markdown, with its link."""
        return f"- [{self.number}. {self.title}]({self.file}): {self.goal}. About {self.minutes} minutes."


def entries(folder: Path) -> tuple[Entry, ...]:
    """Return the numbered lessons of a folder, in order; what is no lesson is passed over."""
    found = (_entry(path) for path in sorted(folder.glob(NUMBERED)))
    return tuple(one for one in found if one is not None)


def _entry(path: Path) -> Entry | None:
    try:
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        sources = ["".join(cell["source"]) for cell in cells]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    head = sources[0] if sources else ""
    title, goal, minutes = TITLE.search(head), GOAL.search(head), MINUTES.search(head)
    if not (title and goal and minutes):
        return None
    practice = tuple(dict.fromkeys(PRACTICE.findall("\n".join(sources))))
    return Entry(path.name, title[2], goal[1].rstrip("."), int(title[1]), int(minutes[1]), practice)


def list_of(folder: Path) -> str:
    """Return the list of lessons as the start page has it; a test compares the two."""
    return "\n".join(one.line for one in entries(folder))


def progress(folder: str | Path | None = None) -> None:
    """Show how far one has come: rules mastered, and the exercises tried in each lesson.

    Parameters
    ----------
    folder : str or Path, optional
        Where the lessons lie, if it cannot be told.
    """
    where = notebook_folder(folder)
    record, notes = history([where, *sorted(where.parent.glob("exercises/*/"))])
    rows, now, needed = _rows(record), datetime.now(UTC), policy().in_a_row
    words = in_words(rows, needed=needed, now=now)
    show({"image/png": progress_png(rows, needed=needed, now=now), "text/plain": words})
    say("\n".join([*_tried(entries(where), record), "", *notes, tell("private")]))


def _rows(record: Record) -> Sequence[Row]:
    rules = (rule for one in bank().values() for rule in one.aim)
    return overview(record, rules, policy=policy())


def _tried(lessons: Sequence[Entry], record: Record) -> list[str]:
    """Return a line for each lesson in which something was tried, or how to begin."""
    done = {one.exercise for one in record.checks}
    counts = [(one, len(done.intersection(one.practice))) for one in lessons]
    lines = [
        f"- {one.number}. {one.title}: {tried} of {len(one.practice)} exercises tried"
        for one, tried in counts
        if tried
    ]
    return lines or ["Nothing tried yet. Begin with lesson 0: it takes five minutes."]
