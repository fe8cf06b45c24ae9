"""What a trainee has practised, in ``progress.json`` beside the notebook; it is never part of a mark."""

from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from zonelib.coach.mastery.record import LARGEST, Check, Record, merged, read_record
from zonelib.coach.mastery.shares import shares_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.sheet.files import kept_folder, now, write_whole
from zonelib.sheet.revision_words import tell
from zonelib.sheet.trouble import SaveTrouble
from zonelib.site.faults import FileFault

__all__ = ["FILE", "history", "remember"]

FILE = "progress.json"


def remember(folder: Path, bundle: Bundle, result: Result, *, hints: int) -> None:
    """Add what a check showed to the record of a folder.

    An answer is never held up by it: what cannot be written is left out.

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
    rules = shares_of(bundle, result)
    if not rules:
        return
    check = Check(
        at=now(), exercise=bundle.exercise.id, variant=bundle.variant or "", hints=hints, rules=rules
    )
    with suppress(SaveTrouble, OSError):
        record = _usable(folder).plus(check)
        write_whole(folder / FILE, record.as_text(), scratch=kept_folder(folder))


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
