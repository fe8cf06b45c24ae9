"""What a trainee has practised, in ``progress.json`` beside the notebook; it is never part of a mark."""

from collections.abc import Iterable
from pathlib import Path

from zonelib.coach.mastery.record import LARGEST, Check, Record, merged, read_record
from zonelib.coach.mastery.shares import shares_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.sheet.files import kept_folder, now, write_whole
from zonelib.sheet.revision_words import tell
from zonelib.sheet.trouble import SaveTrouble
from zonelib.site.faults import FileFault

__all__ = ["FILE", "history", "remember", "written"]

FILE = "progress.json"

_WAITING: dict[Path, list[Check]] = {}
"""Checks that the record of a folder could not take yet, as on a full disk; several sheets share a folder."""


def remember(folder: Path, bundle: Bundle, result: Result, *, hints: int) -> None:
    """Add what a check showed to the record of a folder.

    An answer is never held up by it: what cannot be written now waits for `written`.

    Parameters
    ----------
    folder : Path
        Where the notebook lies.
    bundle : Bundle
        What was answered.
    result : Result
        Of marking the answer.
    hints : int
        How many hints were open.
    """
    if rules := shares_of(bundle, result):
        named = {"exercise": bundle.exercise.id, "variant": bundle.variant or ""}
        check = Check(at=now(), **named, hints=hints, rules=rules)
        _WAITING.setdefault(folder.resolve(), []).append(check)
    written(folder)


def written(folder: Path) -> bool:
    """Write the checks of a folder that wait; tell whether none waits any more."""
    waiting = _WAITING.get(folder.resolve())
    if not waiting:
        return True
    try:
        record = _usable(folder)
        for check in waiting:
            record = record.plus(check)
        write_whole(folder / FILE, record.as_text(), scratch=kept_folder(folder))
    except (SaveTrouble, OSError):
        return False
    del _WAITING[folder.resolve()]
    return True


def history(folders: Iterable[Path]) -> tuple[Record, tuple[str, ...]]:
    """Return what was practised in some folders as one record, and a note for each that cannot be read."""
    records, notes = list[Record](), list[str]()
    for folder in dict.fromkeys(one.resolve() for one in folders):
        try:
            records.append(_read(folder))
        except (FileFault, OSError):
            notes.append(tell("unread", file=f"{folder.name}/{FILE}"))
    return merged(records), tuple(notes)


def _read(folder: Path) -> Record:
    """Return the record of a folder; an empty one where there is none.

    Raises
    ------
    FileFault, OSError
        If what lies there is no record, or cannot be opened.
    """
    try:
        with (folder / FILE).open("rb") as file:
            return read_record(file.read(LARGEST + 1))
    except FileNotFoundError:
        return Record()


def _usable(folder: Path) -> Record:
    """Return the record of a folder; what is no record is kept aside, and a new one begun."""
    try:
        return _read(folder)
    except FileFault:
        stamp = now().replace(":", "").replace("-", "")
        (folder / FILE).replace(kept_folder(folder) / f"progress-{stamp}.json")
        return Record()
