"""What is asked of the database all the time, put together once: building a statement costs a good deal."""

import sqlalchemy as sa
from sqlalchemy import bindparam

from zonelib.desk.server.tables import answers, events, pauses, seat_items, seats, sittings

__all__ = [
    "ANSWER", "ANSWERS_CHANGED", "ANSWERS_NEW", "HEADS", "ITEM", "ITEMS", "LINES_NEW", "LINE_LAST", "PAUSES",
    "SEAT", "SEATS_CHANGED", "SEATS_HELD", "SEAT_HELD", "SITTING", "SITTINGS",
]  # fmt: skip

# Of one seat.

SEAT = sa.select(seats).where(seats.c.id == bindparam("seat"))
SEAT_HELD = SEAT.with_for_update()
SITTING = sa.select(sittings).where(sittings.c.id == bindparam("sitting"))
ITEM = sa.select(seat_items).where(
    seat_items.c.seat == bindparam("seat"), seat_items.c.exercise == bindparam("exercise")
)
ANSWER = sa.select(answers).where(
    answers.c.seat == bindparam("seat"), answers.c.exercise == bindparam("exercise")
)
LINE_LAST = (
    sa.select(events.c.number, events.c.hash)
    .where(events.c.chain == bindparam("chain"))
    .order_by(events.c.number.desc())
    .limit(1)
)

# Of many seats at once. They are held in one order, so that no two servers wait for each other.

_SEATS: sa.BindParameter[list[str]] = bindparam("seats", expanding=True)
_SITTINGS: sa.BindParameter[list[str]] = bindparam("sittings", expanding=True)

SEATS_HELD = sa.select(seats).where(seats.c.id.in_(_SEATS)).order_by(seats.c.id).with_for_update()
SITTINGS = sa.select(sittings).where(sittings.c.id.in_(_SITTINGS))
PAUSES = sa.select(pauses).where(
    pauses.c.sitting.in_(_SITTINGS), pauses.c.seat.is_(None) | pauses.c.seat.in_(_SEATS)
)
ITEMS = (
    sa.select(
        seat_items.c.seat,
        seat_items.c.exercise,
        seat_items.c.bundle,
        answers.c.revision,
        answers.c.saved_at,
        answers.c.body,
    )
    .outerjoin_from(
        seat_items,
        answers,
        (answers.c.seat == seat_items.c.seat) & (answers.c.exercise == seat_items.c.exercise),
    )
    .where(seat_items.c.seat.in_(_SEATS), seat_items.c.exercise.in_(bindparam("exercises", expanding=True)))
)


def _newest(column: sa.Column[object]) -> sa.ScalarSelect[object]:
    of_seat = sa.select(column).where(events.c.chain == "seat:" + seats.c.id)
    return of_seat.order_by(events.c.number.desc()).limit(1).scalar_subquery()


HEADS = sa.select(
    seats.c.id, _newest(events.c.number).label("number"), _newest(events.c.hash).label("hash")
).where(seats.c.id.in_(_SEATS))

ANSWERS_NEW = answers.insert()
ANSWERS_CHANGED = (
    answers.update()
    .where(answers.c.seat == bindparam("of_seat"), answers.c.exercise == bindparam("of_exercise"))
    .values({name: bindparam(name) for name in ("revision", "saved_at", "body")})
)
SEATS_CHANGED = (
    seats.update()
    .where(seats.c.id == bindparam("of_seat"))
    .values({name: bindparam(name) for name in ("saved_at", "seen_at", "at_exercise")})
)
LINES_NEW = events.insert()
