"""A trainee's record: what each check of an answer showed of each rule. It is never part of a mark."""

import json
from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, ValidationError
from pydantic_core import PydanticCustomError

from zonelib.exercise.reading import bounded_json
from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Piece
from zonelib.site.upgrades import upgraded

__all__ = ["LARGEST", "MOST_CHECKS", "Check", "Record", "merged", "read_record"]

MOST_CHECKS = 4000
"""Of more than these the oldest are forgotten."""

LARGEST = 4 * 1024 * 1024
"""More than any real record needs [bytes]."""

MOST_VALUES = 200_000
MOST_RULES = 60
EARLIEST, LATEST = 2000, 2100


def _is_time(value: str) -> str:
    """Accept a time with its zone, of these years: no arithmetic on it can then go astray."""
    try:
        stated = datetime.fromisoformat(value)
        if stated.tzinfo and EARLIEST <= stated.astimezone(UTC).year <= LATEST:
            return value
    except (ValueError, OverflowError):
        pass
    raise PydanticCustomError("not_a_time", "a time with its zone, as 2026-11-25T10:00:00Z")


Short = Annotated[str, Field(max_length=80)]
Time = Annotated[str, Field(max_length=40), AfterValidator(_is_time)]
Share = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]


class Check(Piece):
    """What one check of an answer showed.

    Attributes
    ----------
    at : str
        When, with its time zone.
    exercise, variant : str
        What was answered; no variant is "".
    hints : int
        How many hints were open.
    rules : dict of str to float
        For each rule practised the share of its marks that was earned.
    """

    at: Time
    exercise: Annotated[str, Field(min_length=1, max_length=80)]
    variant: Short = ""
    hints: Annotated[int, Field(ge=0, le=10)] = 0
    rules: Annotated[dict[Short, Share], Field(max_length=MOST_RULES)] = Field(default_factory=dict)

    @property
    def time(self) -> datetime:
        """When it was, in UTC."""
        return datetime.fromisoformat(self.at).astimezone(UTC)

    @property
    def key(self) -> tuple[str, str]:
        """What tells one exercise or variant from another."""
        return self.exercise, self.variant


class Record(Piece):
    """All checks of one trainee, the oldest first."""

    schema_version: Literal[1] = Field(alias="schema", default=1)
    checks: Annotated[tuple[Check, ...], Field(max_length=MOST_CHECKS)] = ()

    def plus(self, check: Check) -> "Record":
        """Return the record with one check more."""
        return self.model_copy(update={"checks": (*self.checks, check)[-MOST_CHECKS:]})

    def as_text(self) -> str:
        """Return the record as JSON, one check a line."""
        lines = [json.dumps(one.model_dump(mode="json"), allow_nan=False) for one in self.checks]
        inner = ",\n  ".join(lines)
        return f'{{"schema": 1, "checks": [\n  {inner}\n]}}\n' if lines else '{"schema": 1, "checks": []}\n'


def read_record(text: str | bytes) -> Record:
    """Read a record as it lies in a file, which may hold anything.

    Raises
    ------
    FileFault
        If it is out of proportion, not JSON, or no record.
    """
    form = "a record of what was practised"
    data = bounded_json(text, what="the record", form=form, largest=LARGEST, most=MOST_VALUES)
    try:
        return Record.model_validate(upgraded("record", data, file="the record"))
    except ValidationError as error:
        raise FileFault("the record", faults_of(error, data, Record)[:5]) from error


def merged(records: Iterable[Record]) -> Record:
    """Return several records as one, in the order of time; a check that is in two of them counts once."""
    checks = dict.fromkeys(one.model_dump_json() for record in records for one in record.checks)
    found = sorted(map(Check.model_validate_json, checks), key=lambda one: one.time)
    return Record(checks=tuple(found[-MOST_CHECKS:]))
