"""Saving an answer beside the notebook, and finding it again."""

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from zonelib.exercise.answer import LARGEST, AnswerRecord, read_answer, read_record
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kind import Kind
from zonelib.sheet.files import clock, kept_folder, now, sweep, write_whole
from zonelib.sheet.trouble import Newer, SaveTrouble
from zonelib.sheet.words import say
from zonelib.site.faults import FileFault

__all__ = ["AnswerFile", "record_in"]


def record_in(path: Path, kind: Kind[Any] | None = None) -> AnswerRecord | None:
    """Return the answer in a file, or None where there is no file; one of another kind is refused.

    Raises
    ------
    FileFault
        If what lies there is not an answer.
    OSError
        If it cannot be opened.
    """
    try:
        with path.open("rb") as file:
            text = file.read(LARGEST + 1)
    except FileNotFoundError:
        return None
    record = read_record(text)
    if kind is not None:
        read_answer(record, kind)
    return record


@dataclass
class AnswerFile:
    """The file of one answer: ``answers/<exercise>.json`` beside the notebook.

    Attributes
    ----------
    folder : Path
        Where the notebook lies.
    bundle : Bundle
        What is answered.
    record : AnswerRecord or None
        As last read or written here.
    revision : int
        The last revision that is known; the next saved one is higher.
    """

    folder: Path
    bundle: Bundle
    record: AnswerRecord | None = None
    revision: int = 0

    @property
    def path(self) -> Path:
        """The file."""
        return self.folder / "answers" / f"{self.bundle.exercise.id}.json"

    def restore(self) -> str:
        """Read what was saved; return a note where it could not be used and was kept aside.

        Raises
        ------
        SaveTrouble
            If the file cannot be opened or moved.
        """
        sweep(self.folder)
        try:
            record = record_in(self.path, self.bundle.kind)
        except FileFault:
            return self.refuse()
        except OSError as error:
            raise SaveTrouble(say("system", words=error.strerror or "it cannot be read")) from error
        if record is None:
            return ""
        self.revision = record.revision
        if record.bundle != self.bundle.hash:
            return say("aside-version", file=self._keep_aside())
        self.record = record
        return ""

    def refuse(self) -> str:
        """Keep aside what cannot be used, and return a note."""
        self.record = None
        return say("aside-broken", file=self._keep_aside())

    def save(self, answer: dict[str, Any], *, candidate: str) -> AnswerRecord:
        """Save an answer as the next revision.

        Raises
        ------
        Newer
            If another window has saved meanwhile; nothing is written then.
        SaveTrouble
            If it cannot be written.
        """
        self._look_for_newer()
        record = AnswerRecord.model_validate(
            {
                "schema": 1,
                "exercise": self.bundle.exercise.id,
                "bundle": self.bundle.hash,
                "variant": self.bundle.variant,
                "candidate": candidate,
                "revision": self.revision + 1,
                "saved_at": now(),
                "answer": answer,
            }
        )
        write_whole(self.path, record.as_text(), scratch=self._scratch())
        self.record, self.revision = record, record.revision
        return record

    def yield_to_saved(self) -> AnswerRecord | None:
        """Take what another window has saved, and return it."""
        self.restore()
        return self.record

    def override(self) -> str:
        """Keep the other window's answer aside, so that the next save wins; return a note."""
        with suppress(FileFault):
            other = record_in(self.path, self.bundle.kind)
            self.revision = max(self.revision, other.revision if other else 0)
        return say("aside-taken", file=self._keep_aside()) if self.path.exists() else ""

    def _look_for_newer(self) -> None:
        try:
            there = record_in(self.path, self.bundle.kind)
        except (FileFault, OSError):
            return  # what cannot be read is told of when it is written over or restored
        if there and there.revision > self.revision and there.bundle == self.bundle.hash:
            raise Newer(clock(there.saved_at))

    def _scratch(self) -> Path:
        try:
            return kept_folder(self.folder)
        except OSError as error:
            raise SaveTrouble(say("read-only")) from error

    def _keep_aside(self) -> str:
        """Move the file out of the way under a name of its own; return where it lies."""
        stamp = now().replace(":", "").replace("-", "")
        kept = self._scratch()
        target = kept / f"{self.path.stem}-{stamp}.json"
        number = 1
        while target.exists():
            number += 1
            target = kept / f"{self.path.stem}-{stamp}-{number}.json"
        try:
            self.path.rename(target)
        except OSError as error:
            raise SaveTrouble(say("system", words=error.strerror or "it cannot be moved")) from error
        return target.relative_to(self.folder).as_posix()
