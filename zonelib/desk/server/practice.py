"""Practice for anyone: the released exercises of a course, with feedback at once."""

import json
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.codes import keyed, new_session
from zonelib.desk.server.making import Candidate, Choice, Plan, add_seat, make_sitting, put_items
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import Session, take_seat
from zonelib.desk.server.tables import items, seats, sittings
from zonelib.desk.server.tries import note_try, refuse_many

__all__ = ["NAME", "offered", "practise", "renew_practice"]

NAME = "practice"
TITLE = "Practice"


def renew_practice(
    connection: sa.Connection, exercises: list[list[Choice]], *, secret: str, now: float
) -> None:
    """Make the course's practice, or bring its exercises up to date; who has begun keeps theirs."""
    if connection.execute(sa.select(sittings.c.id).where(sittings.c.id == NAME)).first() is None:
        plan = Plan(
            id=NAME,
            title=TITLE,
            mode="practice",
            seconds=None,
            exercises=exercises,
            shuffled=False,
            state="open",
        )
        make_sitting(connection, plan, secret=secret, now=now)
        return
    query = sa.select(items.c.choices).where(items.c.sitting == NAME).order_by(items.c.position)
    there = [json.loads(row)[0][0] for row in connection.execute(query).scalars()]
    if there != [each[0].bundle.hash for each in exercises]:
        connection.execute(items.delete().where(items.c.sitting == NAME))
        put_items(connection, NAME, exercises)


def offered(connection: sa.Connection) -> list[dict[str, str]]:
    """Return the practices that anyone may join."""
    wanted = (sittings.c.mode == "practice") & (sittings.c.state == "open")
    rows = connection.execute(sa.select(sittings.c.id, sittings.c.title).where(wanted))
    return [{"id": row.id, "title": row.title} for row in rows]


def practise(
    connection: sa.Connection, secret: str, sitting: str, *, address: str, now: float
) -> tuple[Session, str]:
    """Give a newcomer a seat in a practice; return its session, and a code to come back with.

    Raises
    ------
    Refusal
        If there is no such practice, or many began from the same address just now.
    """
    place = f"practise {address}"
    try:
        refuse_many(connection, place, now=now)
    except Refusal as refusal:
        raise Refusal(429, "many-seats") from refusal
    if sitting not in {one["id"] for one in offered(connection)}:
        raise Refusal(404, "no-practice")
    note_try(connection, place, now=now)
    number = f"P-{new_session()[:8]}"
    seat, code = add_seat(connection, sitting, Candidate(number), secret=secret, now=now)
    session = Session(seat, new_session())
    row: Any = connection.execute(sa.select(seats).where(seats.c.id == seat)).one()
    take_seat(connection, row, keyed(secret, "session", session.name), now=now, actor=number)
    connection.execute(seats.update().where(seats.c.id == seat).values(started_at=now))
    return session, code
