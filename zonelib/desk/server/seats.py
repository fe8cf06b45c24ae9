"""Who sits where: sign-in by code, and one device for each seat."""

from dataclasses import dataclass
from typing import Any, Literal

import sqlalchemy as sa

from zonelib.desk.server.asking import SEAT, SEAT_HELD, SITTING
from zonelib.desk.server.codes import keyed, new_session, plain_code
from zonelib.desk.server.events import chain_of_seat, log
from zonelib.desk.server.moving import ask_for_seat, still_asks
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.tables import seats
from zonelib.desk.server.tries import note_try, refuse_many

__all__ = [
    "Session", "SignedIn", "held_seat", "holds", "leave", "not_held", "session_of", "sign_in", "sitting_of",
    "take_seat",
]  # fmt: skip


@dataclass(frozen=True)
class Session:
    """What a device's cookie says: the seat, and a secret only this device has."""

    seat: str
    name: str

    def __str__(self) -> str:
        """Return the cookie's text."""
        return f"{self.seat}.{self.name}"


@dataclass(frozen=True)
class SignedIn:
    """A device that has signed in: at once, or once the invigilator agrees."""

    session: Session
    state: Literal["in", "waiting"]


def session_of(text: str | None) -> Session | None:
    """Return the session that a cookie's text means."""
    seat, dot, name = (text or "").partition(".")
    return Session(seat, name) if dot and seat and name else None


def sitting_of(connection: sa.Connection, seat: Any) -> Any:
    """Return the sitting's row of a seat's row."""
    return connection.execute(SITTING, {"sitting": seat.sitting}).one()


def sign_in(
    connection: sa.Connection, secret: str, code: str, *, address: str, now: float, old: Session | None
) -> SignedIn | Refusal:
    """Sign a device in by its seat's code.

    Raises
    ------
    Refusal
        If too many codes were tried from its address. One for an unknown code is returned, not raised, so
        that the try is counted.
    """
    refuse_many(connection, address, now=now)
    wanted = keyed(secret, "code", plain_code(code))
    seat = connection.execute(sa.select(seats).where(seats.c.code == wanted).with_for_update()).first()
    if seat is None:
        note_try(connection, address, now=now)
        return Refusal(403, "code-unknown")
    if old and old.seat == seat.id and seat.session == keyed(secret, "session", old.name):
        return SignedIn(old, "in")
    session = Session(seat.id, new_session())
    held = keyed(secret, "session", session.name)
    if seat.session is not None and sitting_of(connection, seat).mode == "quiz":
        ask_for_seat(connection, seat, held, now=now)
        log(connection, chain_of_seat(seat.id), "move-asked", at=now, actor=seat.candidate, address=address)
        return SignedIn(session, "waiting")
    take_seat(connection, seat, held, now=now, actor=seat.candidate, address=address)
    return SignedIn(session, "in")


def take_seat(
    connection: sa.Connection, seat: Any, held: str, *, now: float, actor: str, **detail: Any
) -> None:
    """Give a seat to the device with a session; any other device loses it."""
    connection.execute(seats.update().where(seats.c.id == seat.id).values(session=held, seen_at=now))
    log(connection, chain_of_seat(seat.id), "signed-in", at=now, actor=actor, **detail)


def held_seat(
    connection: sa.Connection, secret: str, session: Session | None, *, locked: bool = False
) -> Any:
    """Return the row of the seat that a device holds.

    Raises
    ------
    Refusal
        If it holds none: never signed in, waiting, not moved, or moved away.
    """
    if session is None:
        raise Refusal(401, "not-in")
    seat = connection.execute(SEAT_HELD if locked else SEAT, {"seat": session.seat}).first()
    if not holds(seat, session, secret):
        raise not_held(connection, seat, session, secret)
    return seat


def holds(seat: Any, session: Session, secret: str) -> bool:
    """Tell whether a device holds a seat; None is no seat."""
    return seat is not None and seat.session == keyed(secret, "session", session.name)


def not_held(connection: sa.Connection, seat: Any, session: Session, secret: str) -> Refusal:
    """Return why a device does not hold a seat."""
    if refusal := still_asks(connection, keyed(secret, "session", session.name)):
        return refusal
    return Refusal(401, "moved" if seat is not None and seat.session else "not-in")


def leave(connection: sa.Connection, seat: Any, *, now: float) -> None:
    """Sign a device out; what is saved stays."""
    connection.execute(seats.update().where(seats.c.id == seat.id).values(session=None))
    log(connection, chain_of_seat(seat.id), "signed-out", at=now, actor=seat.candidate)
