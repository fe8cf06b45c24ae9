"""One line of the mark sheet: small, and without the drawing behind it."""

import hashlib
import json
from dataclasses import asdict, dataclass, replace
from typing import Any

from zonelib.desk.contents import Found
from zonelib.desk.marked import Marked

__all__ = ["Row", "fingerprint", "row_of"]


@dataclass(frozen=True)
class Row:
    """A mark and what there is to say of it.

    Attributes
    ----------
    trainee, assignment, exercise : str
        Whose, and of what.
    score, max : float
        Marks given, and marks to be had.
    handed_in, source, note : str
        When, in which form, and what there is to say.
    earned : float
        Marks before anything was taken off for lateness.
    status, bundle, edition : str
        Of the result behind it.
    candidate, receipt, answered, print : str
        What the file itself states: its number, its receipt, and the bundle it answers; and a code that only
        a copy of this very answer has.
    """

    trainee: str
    assignment: str
    exercise: str
    score: float
    max: float
    handed_in: str = ""
    source: str = ""
    note: str = ""
    earned: float = 0.0
    status: str = "marked"
    bundle: str = ""
    edition: str = ""
    candidate: str = ""
    receipt: str = ""
    answered: str = ""
    print: str = ""

    def as_data(self) -> dict[str, Any]:
        """Return the row as JSON data."""
        return asdict(self)


def row_of(one: Marked) -> Row:
    """Return the row of a marked answer."""
    row = Row(
        one.trainee, one.assignment, one.exercise, one.score, float(one.result.points), one.handed_in,
        one.source, _note(one), one.result.score, one.result.status, one.bundle.hash,
        one.bundle.pack.stated_edition,
    )  # fmt: skip
    if one.found is None:
        return row
    record = one.found.record
    return replace(
        row, candidate=one.found.candidate, receipt=one.found.receipt,
        answered=record.bundle, print=fingerprint(one.found),
    )  # fmt: skip


def _note(one: Marked) -> str:
    """Return what the mark sheet says: what the page says beside the report, and what lateness has taken."""
    return " ".join(filter(None, [one.note, one.late if one.taken else ""]))


def fingerprint(found: Found) -> str:
    """Return a code of an answer with the second it was saved: only copies of one file share it."""
    record = found.record
    whole = [record.exercise, record.bundle, record.revision, record.saved_at, record.answer]
    return hashlib.sha256(json.dumps(whole, sort_keys=True).encode("utf-8", "replace")).hexdigest()[:16]
