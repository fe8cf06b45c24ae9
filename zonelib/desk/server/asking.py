"""What every save asks of the database, put together once: building a statement costs more than it does."""

import sqlalchemy as sa
from sqlalchemy import bindparam

from zonelib.desk.server.tables import answers, events, pauses, seat_items, seats, sittings

__all__ = [
    "ANSWER", "ANSWER_CHANGED", "ANSWER_NEW", "EVENT_LAST", "EVENT_NEW", "ITEM", "PAUSES", "SEAT",
    "SEAT_HELD", "SEAT_SAVED", "SEAT_SEEN", "SITTING",
]  # fmt: skip

SEAT = sa.select(seats).where(seats.c.id == bindparam("seat"))
SEAT_HELD = SEAT.with_for_update()
SITTING = sa.select(sittings).where(sittings.c.id == bindparam("sitting"))
ITEM = sa.select(seat_items).where(
    seat_items.c.seat == bindparam("seat"), seat_items.c.exercise == bindparam("exercise")
)
PAUSES = sa.select(pauses.c.begins, pauses.c.ends).where(
    pauses.c.sitting == bindparam("sitting"), pauses.c.seat.is_(None) | (pauses.c.seat == bindparam("seat"))
)

ANSWER = sa.select(answers).where(
    answers.c.seat == bindparam("seat"), answers.c.exercise == bindparam("exercise")
)
ANSWER_NEW = answers.insert()
ANSWER_CHANGED = (
    answers.update()
    .where(answers.c.seat == bindparam("of_seat"), answers.c.exercise == bindparam("of_exercise"))
    .values({name: bindparam(name) for name in ("revision", "saved_at", "body")})
)
SEAT_SAVED = (
    seats.update()
    .where(seats.c.id == bindparam("of_seat"))
    .values({name: bindparam(name) for name in ("saved_at", "seen_at", "at_exercise")})
)
SEAT_SEEN = (
    seats.update()
    .where(seats.c.id == bindparam("of_seat"))
    .values({name: bindparam(name) for name in ("seen_at", "at_exercise")})
)

EVENT_LAST = (
    sa.select(events.c.number, events.c.hash)
    .where(events.c.chain == bindparam("chain"))
    .order_by(events.c.number.desc())
    .limit(1)
)
EVENT_NEW = events.insert()
