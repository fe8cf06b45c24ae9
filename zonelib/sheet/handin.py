"""Handing in: one file with all answers of a folder."""

from dataclasses import dataclass
from html import escape
from pathlib import Path

from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.handin import HandIn, receipt_of
from zonelib.sheet.candidate import candidate as set_candidate
from zonelib.sheet.candidate import remembered
from zonelib.sheet.files import clock, kept_folder, notebook_folder, now, write_whole
from zonelib.sheet.saving import record_in
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say
from zonelib.site.faults import FileFault

__all__ = ["HandedIn", "write_hand_in"]

BUNDLE = ".bundle.json"


@dataclass(frozen=True)
class HandedIn:
    """What was handed in.

    Attributes
    ----------
    path : Path
        The file for the tutor.
    receipt : str
        Its code.
    lines : tuple of str
        What there is to tell.
    """

    path: Path
    receipt: str
    lines: tuple[str, ...]

    def __repr__(self) -> str:
        """Return the lines as text."""
        return "\n".join(self.lines)

    def _repr_html_(self) -> str:
        return "".join(f"<p>{escape(line)}</p>" for line in self.lines)


def write_hand_in(number: str = "", *, folder: str | Path | None = None) -> HandedIn:
    """Write all answers of a folder into one file beside the notebook.

    Parameters
    ----------
    number : str
        Candidate number; by default the one that was set before.
    folder : str or Path, optional
        By default where the notebook lies.

    Raises
    ------
    SheetTrouble
        If there is no candidate number, no answer, or no way to write.
    """
    where = notebook_folder(folder)
    number = set_candidate(number, folder=where) if number.strip() else remembered(where)
    if not number:
        raise SheetTrouble(say("candidate-needed"))
    answers, unread = _answers(where)
    if not answers:
        raise SheetTrouble(say("handed-none"))
    return _write(where, number, answers, unread)


def _answers(folder: Path) -> tuple[list[AnswerRecord], list[str]]:
    answers, unread = [], []
    for path in sorted((folder / "answers").glob("*.json")):
        try:
            record = record_in(path)
        except (FileFault, OSError):
            unread.append(path.name)
            continue
        if record:
            answers.append(record)
    return answers, unread


def _write(folder: Path, number: str, answers: list[AnswerRecord], unread: list[str]) -> HandedIn:
    receipt = receipt_of(number, answers)
    content = HandIn.model_validate(
        {
            "schema": 1,
            "kind": "hand-in",
            "candidate": number,
            "handed_in_at": now(),
            "receipt": receipt,
            "answers": answers,
        }
    )
    path = folder / f"hand-in-{receipt}.json"
    try:
        scratch = kept_folder(folder)
    except OSError as error:
        raise SheetTrouble(say("not-saved", why=say("read-only"))) from error
    write_whole(path, content.as_text(), scratch=scratch)
    return HandedIn(path, receipt, tuple(_lines(folder, path, content, unread)))


def _lines(folder: Path, path: Path, content: HandIn, unread: list[str]) -> list[str]:
    answered = [one.exercise for one in content.answers]
    there = sorted(one.name.removesuffix(BUNDLE) for one in folder.glob(f"*{BUNDLE}"))
    still_open = [name for name in there if name not in answered]
    lines = [
        say("handed-in", time=clock(content.handed_in_at), receipt=content.receipt, file=path.name),
        say("handed-which", answered=", ".join(answered)),
    ]
    lines += [say("handed-open", open=", ".join(still_open))] if still_open else []
    return lines + ([say("handed-unread", files=", ".join(unread))] if unread else [])
