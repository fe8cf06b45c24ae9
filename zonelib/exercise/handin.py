"""The hand-in file: one trainee's answers in one plain JSON file, written by the sheet, read by the desk."""

import hashlib
import json
from base64 import b32encode
from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import Field, ValidationError

from zonelib.exercise.answer import LARGEST, MOST_VALUES, AnswerRecord, Short
from zonelib.exercise.reading import bounded_json
from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Piece
from zonelib.site.upgrades import upgraded

__all__ = ["HandIn", "read_hand_in", "receipt_of"]

MOST_ANSWERS = 200
LARGEST_FILE = 16 * LARGEST
"""More than a course of real answers needs [bytes]."""


class HandIn(Piece):
    """What a candidate hands in.

    Attributes
    ----------
    kind : str
        Always ``hand-in``: tells this file from a single answer.
    candidate : str
        Candidate number; the only thing in it that tells whose it is.
    handed_in_at : str
        Time, in UTC.
    receipt : str
        Made from candidate and answers; the same contents give the same code.
    answers : tuple of AnswerRecord
        Each with the hash of the bundle it answers.
    """

    schema_version: Literal[1] = Field(alias="schema")
    kind: Literal["hand-in"]
    candidate: Short
    handed_in_at: Short
    receipt: Short
    answers: Annotated[tuple[AnswerRecord, ...], Field(max_length=MOST_ANSWERS)]

    @property
    def untouched(self) -> bool:
        """Whether the receipt still fits the contents."""
        return self.receipt == receipt_of(self.candidate, self.answers)

    def as_text(self) -> str:
        """Return the file's text."""
        return json.dumps(self.model_dump(mode="json", by_alias=True), indent=1, allow_nan=False) + "\n"


def receipt_of(candidate: str, answers: Sequence[AnswerRecord]) -> str:
    """Return the receipt code of what is handed in: two groups of five letters and digits.

    >>> receipt_of("C-014", [])
    'ENYYJ-4LJJS'
    """
    contents = [candidate, [one.model_dump(mode="json", by_alias=True) for one in answers]]
    plain = json.dumps(contents, sort_keys=True, separators=(",", ":"), allow_nan=False)
    code = b32encode(hashlib.sha256(plain.encode()).digest()).decode()
    return f"{code[:5]}-{code[5:10]}"


def read_hand_in(text: str | bytes) -> HandIn:
    """Read a hand-in file.

    Raises
    ------
    FileFault
        If it is out of proportion, not JSON, or not a hand-in file.
    """
    form = "a file as it was handed in"
    most = 16 * MOST_VALUES
    data = bounded_json(text, what="the hand-in file", form=form, largest=LARGEST_FILE, most=most)
    try:
        return HandIn.model_validate(upgraded("hand-in", data, file="the hand-in file"))
    except ValidationError as error:
        raise FileFault("the hand-in file", faults_of(error, data, HandIn)) from error
