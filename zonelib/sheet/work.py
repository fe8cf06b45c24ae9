"""One exercise being worked on, without any page: its bundle, its saved answer, its attempts."""

import csv
from contextlib import suppress
from pathlib import Path
from typing import Any

from zonelib.coach.diagnosis.ideas import diagnosed, idea_words
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.exercise.marking import Result, mark
from zonelib.sheet.candidate import remembered
from zonelib.sheet.files import KEPT, kept_folder, now
from zonelib.sheet.handin import BUNDLE
from zonelib.sheet.progress import remember, written
from zonelib.sheet.saving import AnswerFile
from zonelib.sheet.trouble import SheetTrouble, plainly
from zonelib.sheet.words import say
from zonelib.site.faults import FileFault

__all__ = ["Work", "bundle_beside"]

HEAD = ("time", "revision", "score", "points", "hints")


def bundle_beside(name: str, folder: Path) -> Bundle:
    """Return the bundle of an exercise in a folder.

    Raises
    ------
    SheetTrouble
        If there is none, or it cannot be read.
    """
    path = folder / f"{name}{BUNDLE}"
    if not path.is_file():
        there = sorted(one.name.removesuffix(BUNDLE) for one in folder.glob(f"*{BUNDLE}"))
        words = ", ".join(there) or say("nothing-there")
        raise SheetTrouble(say("missing", name=name, folder=folder, there=words))
    try:
        return read_bundle(path)
    except FileFault as fault:
        raise plainly(fault) from fault


class Work:
    """What is known of an exercise in a folder.

    Parameters
    ----------
    bundle : Bundle
        The exercise.
    folder : Path
        Where its answer is kept.
    notebook : Path, optional
        Where the record of what was practised is kept, if not there.
    """

    def __init__(self, bundle: Bundle, folder: Path, *, notebook: Path | None = None) -> None:
        self.bundle, self.folder = bundle, folder
        self._notebook = notebook or folder
        self.file = AnswerFile(folder, bundle)
        self.hints = 0
        self.checks = self._checks_so_far()
        self._lines: list[tuple[Any, ...]] = []

    def save(self, answer: dict[str, Any]) -> AnswerRecord:
        """Save an answer under the candidate number that was set."""
        record = self.file.save(answer, candidate=remembered(self.folder))
        self.recorded()
        return record

    def mark(self, answer: dict[str, Any]) -> Result:
        """Mark an answer, saved or not."""
        record = {"schema": 1, "exercise": self.bundle.exercise.id, "bundle": self.bundle.hash}
        now_saved = {"revision": self.file.revision, "saved_at": now(), "answer": answer}
        return mark(self.bundle, AnswerRecord.model_validate({**record, **now_saved}))

    def attempt(self, result: Result) -> None:
        """Record a check; where that cannot be written it waits, and `recorded` tells of it."""
        self.checks += 1
        remember(self._notebook, self.bundle, result, hints=self.hints)
        self._lines.append((now(), self.file.revision, result.score, result.points, self.hints))
        self._write_lines()

    def recorded(self) -> bool:
        """Write the checks that wait; tell whether none waits any more."""
        self._write_lines()
        return written(self._notebook) and not self._lines

    def _write_lines(self) -> None:
        if not self._lines:
            return
        with suppress(OSError):
            fresh = not self._attempts.exists()
            kept_folder(self.folder)
            with self._attempts.open("a", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows([*([HEAD] if fresh else []), *self._lines])
            self._lines = []

    def idea(self, result: Result) -> str:
        """Return which idea a checked answer fits, where exactly one explains it; else ""."""
        if result.status != "marked" or result.score >= result.points:
            return ""
        found = diagnosed([(self.bundle, result)]).found
        return idea_words(found[0]) if len(found) == 1 else ""

    @property
    def _attempts(self) -> Path:
        return self.folder / "answers" / KEPT / f"attempts-{self.bundle.exercise.id}.csv"

    def _checks_so_far(self) -> int:
        try:
            return max(len(self._attempts.read_text(encoding="utf-8").splitlines()) - 1, 0)
        except (OSError, UnicodeDecodeError):
            return 0
