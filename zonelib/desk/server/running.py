"""Open, close and release a sitting: what a tutor does from the command line and from the page alike."""

from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.events import chain_of_sitting, heads, log
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.tables import sittings

__all__ = ["close_sitting", "open_sitting", "release_sitting", "sitting_named", "sittings_there"]


def sittings_there(connection: sa.Connection) -> list[Any]:
    """Return the rows of all sittings, the oldest first."""
    return list(connection.execute(sa.select(sittings).order_by(sittings.c.made_at, sittings.c.id)))


def sitting_named(connection: sa.Connection, name: str, *, locked: bool = True) -> Any:
    """Return the row of a sitting, held until the transaction ends unless told otherwise.

    Raises
    ------
    Refusal
        If there is none of that name.
    """
    query = sa.select(sittings).where(sittings.c.id == name)
    row = connection.execute(query.with_for_update() if locked else query).first()
    if row is None:
        raise Refusal(404, "no-sitting", name=name[:60])
    return row


def open_sitting(connection: sa.Connection, name: str, *, now: float, actor: str, reason: str = "") -> None:
    """Let candidates begin, or go on after a close.

    Raises
    ------
    Refusal
        If it is open, or its results are released.
    """
    row = sitting_named(connection, name)
    if row.state == "open":
        raise Refusal(409, "act-not-now", why="it is open already")
    if row.released_at is not None:
        raise Refusal(409, "act-not-now", why="its results are released")
    values = {"state": "open", "opened_at": row.opened_at or now, "closed_at": None}
    connection.execute(sittings.update().where(sittings.c.id == name).values(**values))
    log(connection, chain_of_sitting(name), "opened", at=now, actor=actor, reason=reason)


def close_sitting(connection: sa.Connection, name: str, *, now: float, actor: str, reason: str = "") -> str:
    """End it for everyone and seal the seats' logs; return the seal.

    Raises
    ------
    Refusal
        If it is not open.
    """
    row = sitting_named(connection, name)
    if row.state != "open":
        raise Refusal(409, "act-not-now", why="it is not open")
    values = {"state": "closed", "closed_at": now}
    connection.execute(sittings.update().where(sittings.c.id == name).values(**values))
    log(connection, chain_of_sitting(name), "closed", at=now, actor=actor, reason=reason)
    return seal(connection, name, now=now, actor=actor)


def seal(connection: sa.Connection, name: str, *, now: float, actor: str) -> str:
    """Write the last line of each seat's log into the sitting's own; return that line's hash."""
    told = heads(connection, name)
    return log(connection, chain_of_sitting(name), "sealed", at=now, actor=actor, heads=told)


def release_sitting(
    connection: sa.Connection, name: str, *, now: float, actor: str, reason: str = ""
) -> None:
    """Show candidates their results.

    Raises
    ------
    Refusal
        If it is a quiz that is not closed, or was released before.
    """
    row = sitting_named(connection, name)
    if row.released_at is not None:
        raise Refusal(409, "act-not-now", why="its results are released already")
    if row.mode == "quiz" and row.state != "closed":
        raise Refusal(409, "act-not-now", why="the quiz is not closed yet")
    connection.execute(sittings.update().where(sittings.c.id == name).values(released_at=now))
    log(connection, chain_of_sitting(name), "released", at=now, actor=actor, reason=reason)
