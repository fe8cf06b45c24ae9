"""Marks and reasons for a page: at once in practice, elsewhere once they are released."""

import json
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import sitting_of
from zonelib.desk.server.sitting import records
from zonelib.desk.server.tables import items, results, seat_items, sittings
from zonelib.desk.server.view import bundle_of
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import mark
from zonelib.exercise.report import result_html

__all__ = ["Asked", "asked_for_check", "asked_for_results", "checked", "keep_shown", "shown"]

NONE = "0001-01-01T00:00:00Z"


@dataclass(frozen=True)
class Asked:
    """An answer to be marked, and what of it was marked before."""

    seat: str
    bundle: Bundle
    record: AnswerRecord
    kept: dict[str, Any] | None = None


def asked_for_check(connection: sa.Connection, seat: Any, exercise: str) -> Asked:
    """Return a practised answer to be checked.

    Raises
    ------
    Refusal
        If this is no practice, or the exercise is in a quiz that is running.
    """
    if sitting_of(connection, seat).mode != "practice":
        raise Refusal(403, "not-practice")
    if exercise in in_quizzes(connection):
        raise Refusal(403, "in-quiz")
    found = [one for one in _asked(connection, seat) if one.record.exercise == exercise]
    if not found:
        raise Refusal(404, "no-exercise", name=exercise[:40])
    return found[0]


def in_quizzes(connection: sa.Connection) -> set[str]:
    """Return the exercises of all quizzes that are open now."""
    running = (sittings.c.mode == "quiz") & (sittings.c.state == "open")
    query = sa.select(items.c.exercise).select_from(items.join(sittings, sittings.c.id == items.c.sitting))
    return set(connection.execute(query.where(running)).scalars())


def asked_for_results(connection: sa.Connection, seat: Any) -> list[Asked]:
    """Return every answer of a seat whose results are released, in its order.

    Raises
    ------
    Refusal
        If they are not released.
    """
    if sitting_of(connection, seat).released_at is None:
        raise Refusal(403, "not-released")
    query = sa.select(results).where(results.c.seat == seat.id)
    kept = {(row.exercise, row.revision): json.loads(row.shown) for row in connection.execute(query)}
    return [
        Asked(one.seat, one.bundle, one.record, kept.get((one.record.exercise, one.record.revision)))
        for one in _asked(connection, seat)
    ]


def _asked(connection: sa.Connection, seat: Any) -> list[Asked]:
    held = {one.exercise: one for one in records(connection, seat)}
    query = sa.select(seat_items).where(seat_items.c.seat == seat.id).order_by(seat_items.c.position)
    rows = connection.execute(query).all()
    return [
        Asked(seat.id, bundle_of(connection, row.bundle), held.get(row.exercise) or _none(row))
        for row in rows
    ]


def _none(row: Any) -> AnswerRecord:
    return AnswerRecord(
        schema=1, exercise=row.exercise, bundle=row.bundle, revision=0, saved_at=NONE, answer={}
    )


def checked(asked: Asked) -> dict[str, Any]:
    """Return what a check found, as the notebooks' pad and panel show it."""
    from zonelib.sheet.panel import checked_view
    from zonelib.sheet.task import pad_result

    result = mark(asked.bundle, asked.record)
    if result.status != "marked":
        return {"result": None, "view": {"notes": [result.note], "said": result.note}}
    found = pad_result(asked.bundle, result)
    placed = {one["n"] for one in found["stretches"]} if found else set()
    return {"result": found, "view": checked_view(asked.bundle, result, placed=placed)}


def shown(asked: Asked, *, number: int) -> dict[str, Any]:
    """Return a result as the page shows it."""
    if asked.kept is not None:
        return asked.kept
    result = mark(asked.bundle, asked.record)
    head = {"exercise": result.exercise, "title": asked.bundle.exercise.title}
    told = {"score": result.score, "points": result.points, "status": result.status}
    return {**head, **told, "html": result_html(asked.bundle, result, name=f"result-{number}")}


def keep_shown(connection: sa.Connection, asked: Asked, told: dict[str, Any]) -> None:
    """Keep a result, so that a whole class looking at once costs one marking each."""
    wanted = (results.c.seat == asked.seat) & (results.c.exercise == asked.record.exercise)
    connection.execute(results.delete().where(wanted))
    row = {"seat": asked.seat, "exercise": asked.record.exercise, "revision": asked.record.revision}
    connection.execute(results.insert().values(**row, shown=json.dumps(told, allow_nan=False)))
