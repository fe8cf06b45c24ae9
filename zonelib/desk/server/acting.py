"""What the invigilator does: each act with its reason in the log."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.events import chain_of_seat, chain_of_sitting, log
from zonelib.desk.server.moving import decide
from zonelib.desk.server.records import records
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.running import close_sitting, open_sitting, release_sitting, sitting_named
from zonelib.desk.server.seats import take_seat
from zonelib.desk.server.state import times_of
from zonelib.desk.server.tables import pauses, seats
from zonelib.exercise.handin import receipt_of

__all__ = ["Act", "act"]

ACTOR = "invigilator"
MINUTES = (1.0 / 60, 240.0)


@dataclass(frozen=True, kw_only=True)
class Act:
    """One act.

    Attributes
    ----------
    name : str
        One of `ACTS`.
    sitting : str
        On which sitting.
    seat : str or None
        On which seat; None for the whole sitting.
    minutes : float
        Where time is added [min].
    reason : str
        Why.
    now : float
        When [s].
    """

    name: str
    sitting: str
    seat: str | None
    minutes: float
    reason: str
    now: float

    @property
    def logged(self) -> dict[str, Any]:
        """What the log keeps of every act."""
        return {"at": self.now, "actor": ACTOR, "reason": self.reason}


def act(connection: sa.Connection, wanted: Act) -> None:
    """Carry out an act.

    Raises
    ------
    Refusal
        If there is no such act, sitting or seat, no reason, or it cannot be done now.
    """
    if not wanted.reason.strip():
        raise Refusal(400, "no-reason")
    on_all, on_seat = ACTS.get(wanted.name, (None, None))
    if (on_seat if wanted.seat else on_all) is None:
        raise Refusal(404, "no-act", name=wanted.name[:40])
    sitting = sitting_named(connection, wanted.sitting)
    if wanted.seat is None and on_all:
        on_all(connection, sitting, wanted)
    elif on_seat:
        on_seat(connection, sitting, _seat(connection, wanted), wanted)


def _seat(connection: sa.Connection, wanted: Act) -> Any:
    place = (seats.c.id == wanted.seat) & (seats.c.sitting == wanted.sitting)
    seat = connection.execute(sa.select(seats).where(place).with_for_update()).first()
    if seat is None:
        raise Refusal(404, "no-seat")
    return seat


def _open(connection: sa.Connection, sitting: Any, wanted: Act) -> None:
    open_sitting(connection, sitting.id, now=wanted.now, actor=ACTOR, reason=wanted.reason)


def _close(connection: sa.Connection, sitting: Any, wanted: Act) -> None:
    close_sitting(connection, sitting.id, now=wanted.now, actor=ACTOR, reason=wanted.reason)


def _release(connection: sa.Connection, sitting: Any, wanted: Act) -> None:
    release_sitting(connection, sitting.id, now=wanted.now, actor=ACTOR, reason=wanted.reason)


def _seconds(wanted: Act) -> float:
    low, high = MINUTES
    if not low <= wanted.minutes <= high:
        raise Refusal(400, "minutes")
    return wanted.minutes * 60


def _timed(sitting: Any) -> None:
    if sitting.seconds is None:
        raise Refusal(409, "act-not-now", why="there is no time limit")


def _add_all(connection: sa.Connection, sitting: Any, wanted: Act) -> None:
    """Give everyone more; whose time is over goes on with it."""
    _timed(sitting)
    seconds = _seconds(wanted)
    of_sitting = seats.c.sitting == sitting.id
    in_order = sa.select(seats.c.id).where(of_sitting).order_by(seats.c.id).with_for_update()
    connection.execute(
        in_order
    ).all()  # held in the order in which saves hold them, so neither waits for ever
    connection.execute(seats.update().where(of_sitting).values(extra=seats.c.extra + seconds))
    log(connection, chain_of_sitting(sitting.id), "time-added", **wanted.logged, seconds=seconds)


def _add_one(connection: sa.Connection, sitting: Any, seat: Any, wanted: Act) -> None:
    _timed(sitting)
    seconds = _seconds(wanted)
    connection.execute(seats.update().where(seats.c.id == seat.id).values(extra=seat.extra + seconds))
    log(connection, chain_of_seat(seat.id), "time-added", **wanted.logged, seconds=seconds)


def _running_pause(sitting: Any, seat: Any | None) -> Any:
    of = pauses.c.seat.is_(None) if seat is None else pauses.c.seat == seat.id
    return (pauses.c.sitting == sitting.id) & of & pauses.c.ends.is_(None)


def _pause(connection: sa.Connection, sitting: Any, wanted: Act, seat: Any | None = None) -> None:
    _timed(sitting)
    if connection.execute(sa.select(pauses.c.id).where(_running_pause(sitting, seat))).first():
        raise Refusal(409, "act-not-now", why="the clock is paused already")
    row = {"sitting": sitting.id, "seat": seat.id if seat is not None else None, "begins": wanted.now}
    connection.execute(pauses.insert().values(**row))
    chain = chain_of_sitting(sitting.id) if seat is None else chain_of_seat(seat.id)
    log(connection, chain, "paused", **wanted.logged)


def _pause_one(connection: sa.Connection, sitting: Any, seat: Any, wanted: Act) -> None:
    if times_of(connection, sitting, seat, now=wanted.now).over(wanted.now):
        raise Refusal(409, "act-not-now", why="this candidate's time is over")
    _pause(connection, sitting, wanted, seat)


def _resume(connection: sa.Connection, sitting: Any, wanted: Act, seat: Any | None = None) -> None:
    running = _running_pause(sitting, seat)
    if not connection.execute(pauses.update().where(running).values(ends=wanted.now)).rowcount:
        raise Refusal(409, "act-not-now", why="the clock is not paused")
    chain = chain_of_sitting(sitting.id) if seat is None else chain_of_seat(seat.id)
    log(connection, chain, "resumed", **wanted.logged)


def _resume_one(connection: sa.Connection, sitting: Any, seat: Any, wanted: Act) -> None:
    _resume(connection, sitting, wanted, seat)


def _reopen(connection: sa.Connection, sitting: Any, seat: Any, wanted: Act) -> None:
    """Let a candidate go on after handing in or after the end: with what was left, or what is given now."""
    at = times_of(connection, sitting, seat, now=wanted.now)
    over = at.over(wanted.now)
    if seat.handed_in_at is None and not over:
        raise Refusal(409, "act-not-now", why="this candidate has not handed in, and has time left")
    extra = seat.extra
    if over and at.ends_at is not None:
        extra += wanted.now - at.ends_at + _seconds(wanted)
    values = {"handed_in_at": None, "receipt": None, "extra": extra}
    connection.execute(seats.update().where(seats.c.id == seat.id).values(**values))
    log(connection, chain_of_seat(seat.id), "reopened", **wanted.logged, seconds=extra - seat.extra)


def _end_one(connection: sa.Connection, sitting: Any, seat: Any, wanted: Act) -> None:
    """Hand in for a candidate what is stored."""
    if seat.handed_in_at is not None:
        raise Refusal(409, "act-not-now", why="this candidate has handed in")
    receipt = receipt_of(seat.candidate, records(connection, seat))
    values = {"handed_in_at": wanted.now, "receipt": receipt}
    connection.execute(seats.update().where(seats.c.id == seat.id).values(**values))
    log(connection, chain_of_seat(seat.id), "ended", **wanted.logged, sitting=sitting.id, receipt=receipt)


def _move(connection: sa.Connection, _sitting: Any, seat: Any, wanted: Act) -> None:
    """Move a seat to the device that asked last."""
    session = decide(connection, seat, "approved")
    log(connection, chain_of_seat(seat.id), "moved", **wanted.logged)
    take_seat(connection, seat, session, now=wanted.now, actor=seat.candidate)


def _refuse(connection: sa.Connection, _sitting: Any, seat: Any, wanted: Act) -> None:
    decide(connection, seat, "refused")
    log(connection, chain_of_seat(seat.id), "move-refused", **wanted.logged)


OnAll = Callable[[sa.Connection, Any, Act], None]
OnSeat = Callable[[sa.Connection, Any, Any, Act], None]

ACTS: dict[str, tuple[OnAll | None, OnSeat | None]] = {
    "open": (_open, None),
    "close": (_close, _end_one),
    "release": (_release, None),
    "add": (_add_all, _add_one),
    "pause": (_pause, _pause_one),
    "resume": (_resume, _resume_one),
    "reopen": (_open, _reopen),
    "move": (None, _move),
    "refuse": (None, _refuse),
}
"""What can be done, on the whole sitting and on a seat."""
