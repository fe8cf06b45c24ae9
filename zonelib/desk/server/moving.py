"""A seat that another device asks for: it waits until the invigilator has looked and decided."""

from typing import Any, Literal

import sqlalchemy as sa

from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.tables import takeovers

__all__ = ["ask_for_seat", "decide", "still_asks"]

Decision = Literal["approved", "refused"]


def ask_for_seat(connection: sa.Connection, seat: Any, session: str, *, now: float) -> None:
    """Note that a device asks for a seat; `session` is the keyed hash of its session."""
    connection.execute(takeovers.insert().values(seat=seat.id, session=session, asked_at=now))


def still_asks(connection: sa.Connection, session: str) -> Refusal | None:
    """Return what to tell a device that asked and was not let in; None for one that did not ask, or was."""
    query = sa.select(takeovers.c.decision).where(takeovers.c.session == session)
    asked = connection.execute(query).first()
    if asked is None or asked.decision == "approved":
        return None
    return Refusal(409, "refused-move" if asked.decision else "waiting")


def decide(connection: sa.Connection, seat: Any, decision: Decision) -> str:
    """Decide about the device that asked last, and return its session; any other that asked is refused.

    Raises
    ------
    Refusal
        If no device asks.
    """
    waiting = (takeovers.c.seat == seat.id) & takeovers.c.decision.is_(None)
    query = sa.select(takeovers).where(waiting).order_by(takeovers.c.asked_at.desc(), takeovers.c.id.desc())
    last = connection.execute(query).first()
    if last is None:
        raise Refusal(409, "act-not-now", why="no other device asks for this seat")
    connection.execute(takeovers.update().where(takeovers.c.id == last.id).values(decision=decision))
    connection.execute(takeovers.update().where(waiting).values(decision="refused"))
    return str(last.session)
