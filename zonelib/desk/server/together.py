"""What all pages send all the time, carried out together: one transaction for all that waits.

A change by itself costs a dozen ways to the database and back, and a flush of its disk. Thirty changes
together cost no more. None is confirmed before the transaction that holds it is kept.
"""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.answers import Change, answer_text
from zonelib.desk.server.held import Held
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import Session, holds, not_held
from zonelib.desk.server.state import GONE, blocked, pulse

__all__ = ["Look", "Save", "Wish", "carry_out"]

Told = dict[str, Any]


@dataclass(frozen=True)
class Save:
    """A page wants a change stored: the same one twice without harm, an older one never."""

    session: Session
    now: float
    exercise: str
    change: Change

    def carry_out(self, held: Held, seat: Any) -> Told | Refusal:
        """Note the change; return what is stored, or why it is not.

        Raises
        ------
        Refusal
            If the seat has no such exercise, or it is no answer of it.
        """
        item, change = held.items.get((seat.id, self.exercise)), self.change
        if item is None:
            raise Refusal(404, "no-exercise", name=self.exercise[:40])
        body = answer_text(held.connection, item.bundle, change)
        if item.revision == change.revision and item.body == body:
            return _stored(item)
        code = hashlib.sha256(body.encode()).hexdigest()
        told = {"exercise": self.exercise, "revision": change.revision, "answer": code}
        at = held.times(seat, now=self.now)
        if why := blocked(held.sitting(seat), seat, at, now=self.now, grace=True):
            held.log(seat, "refused", now=self.now, why=why, **told)
            return Refusal(403, why)
        if item.revision is not None and item.revision >= change.revision:
            return Refusal(409, "older", more={**_stored(item), "answer": json.loads(item.body)})
        held.save(seat, item, revision=change.revision, body=body, now=self.now)
        held.log(seat, "saved", now=self.now, **told)
        return _stored(item)


def _stored(item: Any) -> Told:
    return {"exercise": item.exercise, "revision": item.revision, "saved_at": item.saved_at}


@dataclass(frozen=True)
class Look:
    """A page tells that it is there, and on which question, and asks how its seat stands."""

    session: Session
    now: float
    at: str | None

    def carry_out(self, held: Held, seat: Any) -> Told | Refusal:
        """Note it; return the seat's pulse."""
        if seat.seen_at is not None and self.now - seat.seen_at > GONE and seat.started_at is not None:
            held.log(seat, "back", now=self.now, away=round(self.now - seat.seen_at, 1))
        held.seen(seat, self.at, now=self.now)
        return pulse(held.sitting(seat), seat, held.times(seat, now=self.now), now=self.now)


Wish = Save | Look


def carry_out(connection: sa.Connection, secret: str, wishes: Sequence[Wish]) -> list[Told | Refusal]:
    """Carry out what pages want, in the order it came; return what to tell each.

    A wish that is refused changes nothing but the log, and leaves the others as they are.
    """
    seats = sorted({one.session.seat for one in wishes})
    held = Held(connection, seats, sorted({one.exercise for one in wishes if isinstance(one, Save)}))
    told = [_carried_out(held, secret, one) for one in wishes]
    held.store()
    return told


def _carried_out(held: Held, secret: str, wish: Wish) -> Told | Refusal:
    seat = held.seats.get(wish.session.seat)
    if not holds(seat, wish.session, secret):
        return not_held(held.connection, seat, wish.session, secret)
    try:
        return wish.carry_out(held, seat)
    except Refusal as refusal:
        return refusal
