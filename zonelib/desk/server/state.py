"""How a seat stands: its time, what it may do, what it has answered."""

from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.asking import PAUSES, SITTING
from zonelib.desk.server.tables import answers, seat_items
from zonelib.sheet.timing import GRACE, Times, times

__all__ = ["GONE", "blocked", "pulse", "pulse_of", "questions", "times_of"]

GONE = 30.0
"""How long a page may be silent before it counts as disconnected [s]."""


def times_of(connection: sa.Connection, sitting: Any, seat: Any, *, now: float) -> Times:
    """Return how a seat stands in time."""
    found = connection.execute(PAUSES, {"sittings": [sitting.id], "seats": [seat.id]})
    spans = [(row.begins, row.ends) for row in found]
    return times(sitting.seconds, seat.extra, started_at=seat.started_at, pauses=spans, now=now)


def blocked(sitting: Any, seat: Any, at: Times, *, now: float, grace: bool = False) -> str:
    """Return why a seat may not answer now, as an entry of the words; "" where it may.

    With `grace`, an answer that was on its way when the time ended is let through.
    """
    late = GRACE if grace else 0.0
    if sitting.state == "made":
        return "not-open"
    if sitting.state == "closed" and now >= (sitting.closed_at or 0.0) + late:
        return "closed"
    if seat.started_at is None:
        return "not-started"
    if seat.handed_in_at is not None:
        return "handed-in"
    if at.over(now, grace=late):
        return "ended"
    return "paused" if at.paused_at is not None and now >= at.paused_at + late else ""


def pulse(sitting: Any, seat: Any, at: Times, *, now: float) -> dict[str, Any]:
    """Return what a page must know all the time: small, and asked for every few seconds."""
    return {
        "now": now,
        "state": sitting.state,
        "started": at.started_at is not None,
        "ends_at": at.ends_at,
        "left": at.left,
        "paused": at.is_paused,
        "over": at.over(now),
        "handed_in": seat.handed_in_at is not None,
        "receipt": seat.receipt,
        "released": sitting.released_at is not None,
        "saved_at": seat.saved_at,
        "may_answer": not blocked(sitting, seat, at, now=now),
    }


def pulse_of(connection: sa.Connection, seat: Any, *, now: float) -> dict[str, Any]:
    """Return the pulse of a seat as it stands."""
    sitting = connection.execute(SITTING, {"sitting": seat.sitting}).one()
    return pulse(sitting, seat, times_of(connection, sitting, seat, now=now), now=now)


def questions(connection: sa.Connection, seat: Any) -> list[dict[str, Any]]:
    """Return the questions of a seat in its order, each with how far it is."""
    joined = seat_items.outerjoin(
        answers, (answers.c.seat == seat_items.c.seat) & (answers.c.exercise == seat_items.c.exercise)
    )
    columns = (
        seat_items.c.exercise,
        seat_items.c.flagged,
        answers.c.revision,
        answers.c.saved_at,
        answers.c.body,
    )
    query = sa.select(*columns).select_from(joined).where(seat_items.c.seat == seat.id)
    return [
        {
            "exercise": row.exercise,
            "flagged": bool(row.flagged),
            "answered": row.body not in (None, "{}"),
            "revision": row.revision or 0,
            "saved_at": row.saved_at,
        }
        for row in connection.execute(query.order_by(seat_items.c.position))
    ]
