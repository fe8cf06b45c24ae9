"""Answer records: what a trainee saved, read as hostile input."""

import json
from typing import Annotated, Any, Literal, TypeVar

from pydantic import Field, ValidationError

from zonelib.exercise.kind import Kind
from zonelib.exercise.reading import bounded_json
from zonelib.site.faults import Fault, FileFault, faults_of
from zonelib.site.fields import Piece
from zonelib.site.upgrades import upgraded

__all__ = ["MIME", "AnswerRecord", "read_answer", "read_record"]

MIME = "application/vnd.zonelib.answer+json"
"""Under which an answer is mirrored into a notebook's output."""

LARGEST = 256 * 1024
"""More than any real answer needs [bytes]."""

MOST_VALUES = 50_000
"""Numbers and words in one answer."""

Answer = TypeVar("Answer", bound=Piece)
Short = Annotated[str, Field(max_length=80)]


class AnswerRecord(Piece):
    """One saved answer, with which bundle it answers and which revision it is."""

    schema_version: Literal[1] = Field(alias="schema")
    exercise: Short
    bundle: Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
    variant: Short | None = None
    candidate: Short = ""
    revision: Annotated[int, Field(ge=0, le=10**9, strict=True)]
    saved_at: Short
    answer: dict[str, Any]

    def as_text(self) -> str:
        """Return the record as JSON, one line per key."""
        return json.dumps(self.model_dump(mode="json", by_alias=True), indent=1, allow_nan=False) + "\n"


def read_record(text: str | bytes) -> AnswerRecord:
    """Read an answer record.

    Raises
    ------
    FileFault
        If it is out of proportion, not JSON, or not an answer record.
    """
    form = "an answer as it was saved"
    data = bounded_json(text, what="the answer", form=form, largest=LARGEST, most=MOST_VALUES)
    try:
        return AnswerRecord.model_validate(upgraded("answer", data, file="the answer"))
    except ValidationError as error:
        raise FileFault("the answer", faults_of(error, data, AnswerRecord)) from error


def read_answer(record: AnswerRecord, kind: Kind[Answer]) -> Answer:
    """Return what the trainee answered.

    Raises
    ------
    FileFault
        If it is not an answer of the exercise's kind.
    """
    try:
        return kind.answer.model_validate(record.answer)
    except (ValidationError, RecursionError) as error:
        faults = faults_of(error, record.answer, kind.answer) if isinstance(error, ValidationError) else []
        faults = faults[:5] or [Fault("answer", "lists too deep", "an answer")]
        raise FileFault("the answer", faults) from error
