"""Stored answers in the form in which answers are marked and handed in."""

import json
from datetime import UTC, datetime
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.tables import answers, seat_items
from zonelib.exercise.answer import AnswerRecord

__all__ = ["records", "stamp"]


def stamp(seconds: float) -> str:
    """Return a time as answers state it: UTC, to the second."""
    return datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def records(connection: sa.Connection, seat: Any) -> list[AnswerRecord]:
    """Return the stored answers of a seat as they are marked, by exercise."""
    joined = answers.join(
        seat_items, (answers.c.seat == seat_items.c.seat) & (answers.c.exercise == seat_items.c.exercise)
    )
    query = sa.select(answers, seat_items.c.bundle, seat_items.c.variant).select_from(joined)
    rows = connection.execute(query.where(answers.c.seat == seat.id).order_by(answers.c.exercise))
    return [_record(seat, row) for row in rows]


def _record(seat: Any, row: Any) -> AnswerRecord:
    return AnswerRecord.model_validate(
        {
            "schema": 1,
            "exercise": row.exercise,
            "bundle": row.bundle,
            "variant": row.variant,
            "candidate": seat.candidate,
            "revision": row.revision,
            "saved_at": stamp(row.saved_at),
            "answer": json.loads(row.body),
        }
    )
