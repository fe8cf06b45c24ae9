"""Read the answers in one file, by what it holds and never by its name."""

import codecs
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import PurePosixPath
from typing import Any, Literal

from zonelib.desk.bag import Bag, Item
from zonelib.desk.walk import LARGEST, Trouble
from zonelib.exercise.answer import MIME, AnswerRecord, read_record
from zonelib.exercise.handin import MOST_ANSWERS, read_hand_in
from zonelib.site.faults import FileFault

__all__ = ["Contents", "Found", "Source", "read_items"]

Source = Literal["hand-in file", "answers folder", "notebook"]
DEEP = "lists inside lists, very deep"
CHANGED = "The receipt code does not fit: the file was changed after it was made."
OLDER = "Taken from the notebook's saved picture, so it may be older than the last change."
MOST_PARTS = 1_000_000
"""Numbers and words in a file that is read at all; a notebook of a whole course has some thousands."""

BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
"""Marks that editors put at a file's start. The longer ones come first, since one begins like a shorter."""


@dataclass(frozen=True)
class Found:
    """An answer with where it was found.

    Attributes
    ----------
    record : AnswerRecord
        The answer.
    source : str
        ``hand-in file``, ``answers folder`` or ``notebook``.
    candidate, handed_in : str
        Candidate number and time, or "".
    note : str
        What there is to say about its source.
    receipt : str
        The receipt code of its hand-in file, or "".
    """

    record: AnswerRecord
    source: Source
    candidate: str
    handed_in: str
    note: str = ""
    receipt: str = ""


@dataclass(frozen=True)
class Contents:
    """What files hold: answers, and what could not be used."""

    found: tuple[Found, ...] = ()
    troubles: tuple[Trouble, ...] = ()

    def __add__(self, other: "Contents") -> "Contents":
        """Return both together."""
        return Contents(self.found + other.found, self.troubles + other.troubles)

    @property
    def candidate(self) -> str:
        """The candidate number the files state, or ""."""
        return next((one.candidate for one in self.found if one.candidate), "")


def read_items(items: Iterable[Item]) -> Contents:
    """Return what the files of one submission hold; a file that cannot be read costs no other."""
    bag = Bag()
    found: list[Found] = []
    troubles: list[Trouble] = []
    for shown, raw in bag.contents(items):
        read = _read(shown, raw)
        found += read.found
        troubles += read.troubles
    return Contents(tuple(found), (*troubles, *bag.troubles))


def _read(shown: str, raw: bytes) -> Contents:
    path = PurePosixPath(shown)
    exercise = path.stem if path.parent.name == "answers" else ""
    try:
        data = _json(raw)
    except RecursionError:
        return _trouble(shown, f"The file cannot be read: it holds {DEEP}.", exercise)
    except ValueError as error:
        told = str(error) if isinstance(error, _Refused) else _unread(path, raw)
        return _trouble(shown, told, exercise) if told else Contents()
    return _by_kind(data, shown, exercise)


class _Refused(ValueError):
    """A file out of all proportion."""


def _unread(path: PurePosixPath, raw: bytes) -> str:
    """Return what to say of a file that is not JSON; pictures and the like are passed over without a word."""
    if path.suffix.lower() == ".zip":
        return "It is a zip that is damaged."
    expected = path.parent.name == "answers" or {".json", ".ipynb"} & {one.lower() for one in path.suffixes}
    told = "The file is not JSON, so nothing in it can be read." if raw.strip() else "The file is empty."
    return told if expected else ""


def _json(raw: bytes) -> dict[str, Any]:
    """Parse only what may be JSON of ours, which is always a table."""
    text = _text(raw)
    if len(raw) > LARGEST or not text.lstrip(" \t\r\n").startswith("{"):
        raise ValueError("not a table")
    if text.count(",") > MOST_PARTS:
        raise _Refused(f"It holds more than {MOST_PARTS:,} numbers and words and was not read.")
    data: dict[str, Any] = json.loads(text)
    return data


def _text(raw: bytes) -> str:
    """Return bytes as text, in whichever encoding an editor has saved them."""
    for mark, encoding in BOMS:
        if raw.startswith(mark):
            return raw.decode(encoding)
    zeros = raw[:2].find(b"\0")
    return raw.decode({0: "utf-16-be", 1: "utf-16-le"}.get(zeros, "utf-8"))


def _by_kind(data: dict[str, Any], shown: str, exercise: str) -> Contents:
    if data.get("kind") == "hand-in":
        return _hand_in(data, shown)
    if isinstance(data.get("cells"), list):
        return _notebook(data["cells"], shown)
    if "format" in data and "pack" in data:
        return Contents()  # a copy of a released bundle, which is never marked from
    return _record(data, "answers folder", shown, exercise=exercise)


def _trouble(shown: str, words: str, exercise: str = "") -> Contents:
    return Contents(troubles=(Trouble(shown, words, exercise),))


def _record(data: Any, source: Source, shown: str, *, exercise: str = "", note: str = "") -> Contents:
    try:
        record = read_record(json.dumps(data))
    except (FileFault, RecursionError) as error:
        named = data.get("exercise") if isinstance(data, dict) else None
        what = str(error.faults[0]) if isinstance(error, FileFault) else DEEP
        return _trouble(
            shown,
            f"The answer cannot be read. {what}.",
            exercise or (named if isinstance(named, str) else ""),
        )
    return Contents((Found(record, source, record.candidate, record.saved_at, note),))


def _hand_in(data: dict[str, Any], shown: str) -> Contents:
    """Read each answer by itself: one that is broken costs no other."""
    answers = data.get("answers")
    if not isinstance(answers, list) or len(answers) > MOST_ANSWERS:
        return _trouble(shown, f"A hand-in file holds a list of at most {MOST_ANSWERS} answers.")
    candidate, when, receipt = (_short(data.get(key)) for key in ("candidate", "handed_in_at", "receipt"))
    note = "" if _untouched(data) else CHANGED
    total = sum((_record(one, "hand-in file", shown, note=note) for one in answers), Contents())
    found = tuple(
        replace(one, candidate=candidate or one.candidate, handed_in=when or one.handed_in, receipt=receipt)
        for one in total.found
    )
    return Contents(found, total.troubles)


def _untouched(data: dict[str, Any]) -> bool:
    try:
        return read_hand_in(json.dumps(data)).untouched
    except (FileFault, ValueError, RecursionError):
        return False


def _short(value: object) -> str:
    return value[:80] if isinstance(value, str) else ""


def _notebook(cells: list[Any], shown: str) -> Contents:
    total = Contents()
    for data in islice(_mirrored(cells), MOST_ANSWERS):
        total += _record(data, "notebook", shown, note=OLDER)
    return total


def _mirrored(cells: list[Any]) -> Iterator[Any]:
    """Yield what a notebook's outputs hold under our type; anything else in it is passed over."""
    for one in cells:
        outputs = one.get("outputs") if isinstance(one, dict) else None
        for output in outputs if isinstance(outputs, list) else ():
            data = output.get("data") if isinstance(output, dict) else None
            if isinstance(data, dict) and MIME in data:
                yield data[MIME]
