"""Marked answers as pages show them: each is marked once, kept, and given to whoever gave the same answer."""

import hashlib
import json
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import IntegrityError

from zonelib.desk.server.store import Store
from zonelib.desk.server.tables import answers, results, seat_items, seats, sittings
from zonelib.desk.server.view import bundle_of
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import mark
from zonelib.exercise.report import result_html

__all__ = ["Answered", "Ended", "answered", "bundle_and_record", "ended", "result_of", "unmarked"]

NOTHING = "{}"
UNDATED = "0001-01-01T00:00:00Z"

Ended = tuple[str, float | None, float | None]
"""A sitting whose answers wait to be marked: its id, when it was closed, when it was released."""


@dataclass(frozen=True)
class Answered:
    """An answer as it is stored, with what it answers: nothing else counts for its marks."""

    exercise: str
    bundle: str
    body: str

    @property
    def code(self) -> str:
        """Hash of the answer."""
        return hashlib.sha256(self.body.encode()).hexdigest()


def answered(connection: sa.Connection, *, seat: str = "", sitting: str = "") -> list[Answered]:
    """Return the answers of a seat in its order, or of a whole sitting; of no answer, an empty one."""
    of_item = (answers.c.seat == seat_items.c.seat) & (answers.c.exercise == seat_items.c.exercise)
    joined = seat_items.join(seats, seats.c.id == seat_items.c.seat).outerjoin(answers, of_item)
    query = sa.select(seat_items.c.exercise, seat_items.c.bundle, answers.c.body).select_from(joined)
    wanted = seats.c.id == seat if seat else seats.c.sitting == sitting
    rows = connection.execute(query.where(wanted).order_by(seat_items.c.position))
    return [Answered(row.exercise, row.bundle, row.body or NOTHING) for row in rows]


def bundle_and_record(connection: sa.Connection, one: Answered) -> tuple[Bundle, AnswerRecord]:
    """Return what marking needs of an answer."""
    told = {"exercise": one.exercise, "bundle": one.bundle, "revision": 0, "saved_at": UNDATED}
    record = AnswerRecord.model_validate({"schema": 1, **told, "answer": json.loads(one.body)})
    return bundle_of(connection, one.bundle), record


def result_of(store: Store, one: Answered) -> dict[str, Any]:
    """Return an answer's result as pages show it; marked now, where nobody gave this answer before."""
    wanted = (results.c.bundle == one.bundle) & (results.c.answer == one.code)
    with store.reading() as connection:
        kept = connection.execute(sa.select(results.c.shown).where(wanted)).scalar()
        if kept is not None:
            found: dict[str, Any] = json.loads(kept)
            return found
        bundle, record = bundle_and_record(connection, one)
    told = _shown(bundle, record)
    row = {"bundle": one.bundle, "answer": one.code, "shown": json.dumps(told, allow_nan=False)}
    with suppress(IntegrityError), store.writing() as connection:  # another server may just have kept it
        connection.execute(results.insert().values(**row))
    return told


def _shown(bundle: Bundle, record: AnswerRecord) -> dict[str, Any]:
    result = mark(bundle, record)
    head = {"exercise": result.exercise, "title": bundle.exercise.title}
    told = {"score": result.score, "points": result.points, "status": result.status}
    return {**head, **told, "html": result_html(bundle, result, name=f"result-{result.exercise}")}


def ended(connection: sa.Connection) -> list[Ended]:
    """Return the sittings that are closed or released: what is answered there is soon looked at."""
    over = (sittings.c.state == "closed") | sittings.c.released_at.is_not(None)
    query = sa.select(sittings.c.id, sittings.c.closed_at, sittings.c.released_at).where(over)
    return [(row.id, row.closed_at, row.released_at) for row in connection.execute(query)]


def unmarked(connection: sa.Connection, sitting: str) -> list[Answered]:
    """Return the answers of a sitting that were not marked yet, each different one once."""
    kept = {tuple(row) for row in connection.execute(sa.select(results.c.bundle, results.c.answer))}
    found = {(one.bundle, one.code): one for one in answered(connection, sitting=sitting)}
    return [one for key, one in found.items() if key not in kept]
