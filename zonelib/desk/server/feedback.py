"""What a seat is told of its answers: at once in practice, elsewhere once results are released."""

from typing import Any

import sqlalchemy as sa

from zonelib.desk.overrides import Change
from zonelib.desk.server.changes import changes_of
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.results import Answered, answered, bundle_and_record
from zonelib.desk.server.seats import sitting_of
from zonelib.desk.server.tables import items, sittings
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import mark

__all__ = ["asked_for_check", "asked_for_results", "checked"]


def asked_for_check(connection: sa.Connection, seat: Any, exercise: str) -> tuple[Bundle, AnswerRecord]:
    """Return a practised answer to be checked.

    Raises
    ------
    Refusal
        If this is no practice, or the exercise is in a quiz that is running.
    """
    if sitting_of(connection, seat).mode != "practice":
        raise Refusal(403, "not-practice")
    if exercise in _in_quizzes(connection):
        raise Refusal(403, "in-quiz")
    for one in answered(connection, seat=seat.id):
        if one.exercise == exercise:
            return bundle_and_record(connection, one)
    raise Refusal(404, "no-exercise", name=exercise[:40])


def _in_quizzes(connection: sa.Connection) -> set[str]:
    """Return the exercises of all quizzes that are open now."""
    running = (sittings.c.mode == "quiz") & (sittings.c.state == "open")
    query = sa.select(items.c.exercise).select_from(items.join(sittings, sittings.c.id == items.c.sitting))
    return set(connection.execute(query.where(running)).scalars())


def asked_for_results(connection: sa.Connection, seat: Any) -> tuple[list[Answered], list[Change]]:
    """Return every answer of a seat whose results are released, in its order, and the marks changed.

    Raises
    ------
    Refusal
        If they are not released.
    """
    if sitting_of(connection, seat).released_at is None:
        raise Refusal(403, "not-released")
    return answered(connection, seat=seat.id), changes_of(connection, seat.sitting, seat=seat.id)


def checked(bundle: Bundle, record: AnswerRecord) -> dict[str, Any]:
    """Return what a check found, as the notebooks' pad and panel show it."""
    from zonelib.sheet.panel import checked_view
    from zonelib.sheet.task import pad_result

    result = mark(bundle, record)
    if result.status != "marked":
        return {"result": None, "view": {"notes": [result.note], "said": result.note}}
    found = pad_result(bundle, result)
    placed = {one["n"] for one in found["stretches"]} if found else set()
    return {"result": found, "view": checked_view(bundle, result, placed=placed)}
