"""Answers as pages send them and as they are stored."""

import json
from typing import Any

import sqlalchemy as sa
from pydantic import Field, ValidationError

from zonelib.desk.server.asking import ANSWER, ITEM
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.view import stored_view
from zonelib.exercise.answer import LARGEST, MOST_VALUES
from zonelib.exercise.reading import bounded_json
from zonelib.sheet.kinds import pad_kind
from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Piece

__all__ = ["Change", "answer_text", "read_change", "seat_item", "stored_answer"]


class Change(Piece):
    """What a page sends: an answer, and its revision."""

    revision: int = Field(ge=1, le=10**9, strict=True)
    answer: dict[str, Any]


def read_change(body: bytes) -> Change:
    """Read what a page sent, bounded before anything in it is believed.

    Raises
    ------
    Refusal
        If it is no answer with a revision.
    """
    if len(body) > LARGEST:
        raise Refusal(413, "too-large", most=f"{LARGEST:,}")
    try:
        data = bounded_json(body, what="the answer", form="JSON", largest=LARGEST, most=MOST_VALUES)
        return Change.model_validate(data)
    except FileFault as fault:
        raise Refusal(400, "not-an-answer", troubles=fault.faults[0]) from fault
    except ValidationError as error:
        told = faults_of(error, {}, Change)[0]
        raise Refusal(400, "not-an-answer", troubles=told) from error


def seat_item(connection: sa.Connection, seat: Any, exercise: str) -> Any:
    """Return which bundle of an exercise a seat has.

    Raises
    ------
    Refusal
        If the seat has no such exercise.
    """
    item = connection.execute(ITEM, {"seat": seat.id, "exercise": exercise}).first()
    if item is None:
        raise Refusal(404, "no-exercise", name=exercise[:40])
    return item


def stored_answer(connection: sa.Connection, seat: Any, exercise: str) -> Any:
    """Return the row of a seat's answer, or None."""
    return connection.execute(ANSWER, {"seat": seat.id, "exercise": exercise}).first()


def answer_text(connection: sa.Connection, bundle: str, change: Change) -> str:
    """Return an answer as it is stored.

    Raises
    ------
    Refusal
        If it is no answer of the bundle's exercise.
    """
    task = stored_view(connection, bundle)["task"]
    troubles = pad_kind(task["kind"]).troubles(change.answer, task) if change.answer else []
    if troubles:
        raise Refusal(400, "not-an-answer", troubles="; ".join(troubles))
    try:
        return json.dumps(change.answer, sort_keys=True, separators=(",", ":"), allow_nan=False)
    except (ValueError, RecursionError) as error:
        raise Refusal(400, "not-an-answer", troubles="numbers must be finite") from error
