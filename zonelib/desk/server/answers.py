"""Store answers: each change with its revision, the same one twice without harm, an older one never."""

import hashlib
import json
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa
from pydantic import Field, ValidationError

from zonelib.desk.server.asking import ANSWER, ANSWER_CHANGED, ANSWER_NEW, ITEM, SEAT_SAVED
from zonelib.desk.server.events import chain_of_seat, log
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import sitting_of
from zonelib.desk.server.state import blocked, times_of
from zonelib.desk.server.view import stored_view
from zonelib.exercise.answer import LARGEST, MOST_VALUES
from zonelib.exercise.reading import bounded_json
from zonelib.sheet.kinds import pad_kind
from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Piece

__all__ = ["Change", "Saved", "read_change", "save_answer", "seat_item", "stored_answer"]


class Change(Piece):
    """What a page sends: an answer, and its revision."""

    revision: int = Field(ge=1, le=10**9, strict=True)
    answer: dict[str, Any]


@dataclass(frozen=True)
class Saved:
    """An answer as it is stored."""

    exercise: str
    revision: int
    saved_at: float


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


def save_answer(
    connection: sa.Connection, seat: Any, exercise: str, change: Change, *, now: float
) -> Saved | Refusal:
    """Store a change; the caller holds the seat's row.

    Returns
    -------
    Saved or Refusal
        A refusal is returned rather than raised where it stands in the log.

    Raises
    ------
    Refusal
        If it is no answer of the exercise.
    """
    item = seat_item(connection, seat, exercise)
    text = _held_to_form(connection, item, change)
    code, old = hashlib.sha256(text.encode()).hexdigest(), stored_answer(connection, seat, exercise)
    told = {"exercise": exercise, "revision": change.revision, "answer": code}
    if old and old.revision == change.revision and old.body == text:
        return Saved(exercise, old.revision, old.saved_at)
    sitting = sitting_of(connection, seat)
    if why := blocked(sitting, seat, times_of(connection, sitting, seat, now=now), now=now, grace=True):
        log(connection, chain_of_seat(seat.id), "refused", at=now, actor=seat.candidate, why=why, **told)
        return Refusal(403, why)
    if old and old.revision >= change.revision:
        return Refusal(409, "older", more=_newer(old))
    row = {"revision": change.revision, "saved_at": now, "body": text}
    _put(connection, seat, exercise, row, fresh=old is None)
    log(connection, chain_of_seat(seat.id), "saved", at=now, actor=seat.candidate, **told)
    return Saved(exercise, change.revision, now)


def _held_to_form(connection: sa.Connection, item: Any, change: Change) -> str:
    task = stored_view(connection, item.bundle)["task"]
    troubles = pad_kind(task["kind"]).troubles(change.answer, task) if change.answer else []
    if troubles:
        raise Refusal(400, "not-an-answer", troubles="; ".join(troubles))
    try:
        return json.dumps(change.answer, sort_keys=True, separators=(",", ":"), allow_nan=False)
    except (ValueError, RecursionError) as error:
        raise Refusal(400, "not-an-answer", troubles="numbers must be finite") from error


def _newer(old: Any) -> dict[str, Any]:
    return {"revision": old.revision, "saved_at": old.saved_at, "answer": json.loads(old.body)}


def _put(connection: sa.Connection, seat: Any, exercise: str, row: dict[str, Any], *, fresh: bool) -> None:
    if fresh:
        connection.execute(ANSWER_NEW, {"seat": seat.id, "exercise": exercise, **row})
    else:
        connection.execute(ANSWER_CHANGED, {"of_seat": seat.id, "of_exercise": exercise, **row})
    at = row["saved_at"]
    values = {"of_seat": seat.id, "saved_at": at, "seen_at": at, "at_exercise": exercise}
    connection.execute(SEAT_SAVED, values)
