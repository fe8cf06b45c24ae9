"""What a candidate does beside answering: begin, look, flag, hand in."""

import json
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.answers import seat_item, stored_answer
from zonelib.desk.server.events import chain_of_seat, log
from zonelib.desk.server.records import records
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import sitting_of
from zonelib.desk.server.state import blocked, pulse_of, questions, times_of
from zonelib.desk.server.tables import bundles, seat_items, seats
from zonelib.desk.server.view import stored_view
from zonelib.exercise.handin import receipt_of

__all__ = ["begin", "flag", "hand_in", "overview", "question"]

OVER = ("ended", "closed")


def overview(connection: sa.Connection, seat: Any, *, now: float) -> dict[str, Any]:
    """Return all that a page needs when it opens."""
    sitting = sitting_of(connection, seat)
    listed = questions(connection, seat)
    if seat.started_at is None and sitting.seconds is not None:
        told = [{"exercise": "", "title": ""} for _ in listed]  # how many, and no more before the start
    else:
        titles = _titles(connection, seat)
        told = [{**one, "title": titles[one["exercise"]]} for one in listed]
    head = {"title": sitting.title, "mode": sitting.mode, "candidate": seat.candidate, "seat": seat.id}
    whole = None if sitting.seconds is None else sitting.seconds + seat.extra
    return {**head, "seconds": whole, "questions": told, "pulse": pulse_of(connection, seat, now=now)}


def _titles(connection: sa.Connection, seat: Any) -> dict[str, str]:
    joined = seat_items.join(bundles, bundles.c.hash == seat_items.c.bundle)
    query = sa.select(seat_items.c.exercise, seat_items.c.bundle).select_from(joined)
    rows = connection.execute(query.where(seat_items.c.seat == seat.id))
    return {row.exercise: stored_view(connection, row.bundle)["title"] for row in rows.all()}


def begin(connection: sa.Connection, seat: Any, *, now: float) -> None:
    """Start a seat's clock; a second start changes nothing.

    Raises
    ------
    Refusal
        If the sitting is not open.
    """
    sitting = sitting_of(connection, seat)
    if sitting.state != "open":
        raise Refusal(403, "closed" if sitting.state == "closed" else "not-open")
    if seat.started_at is None:
        connection.execute(seats.update().where(seats.c.id == seat.id).values(started_at=now))
        log(connection, chain_of_seat(seat.id), "started", at=now, actor=seat.candidate)


def question(connection: sa.Connection, seat: Any, exercise: str) -> dict[str, Any]:
    """Return a question with the stored answer.

    Raises
    ------
    Refusal
        If the seat's time has not started, or it has no such question.
    """
    if seat.started_at is None:
        raise Refusal(403, "not-started")
    item = seat_item(connection, seat, exercise)
    held = stored_answer(connection, seat, exercise)
    answer = json.loads(held.body) if held else {}
    told = {"answer": answer, "revision": held.revision if held else 0}
    saved_at = held.saved_at if held else None
    return {
        **stored_view(connection, item.bundle),
        **told,
        "saved_at": saved_at,
        "flagged": bool(item.flagged),
    }


def flag(connection: sa.Connection, seat: Any, exercise: str, *, flagged: bool) -> None:
    """Mark a question to come back to, or unmark it."""
    item = seat_item(connection, seat, exercise)
    wanted = (seat_items.c.seat == seat.id) & (seat_items.c.exercise == item.exercise)
    connection.execute(seat_items.update().where(wanted).values(flagged=flagged))


def hand_in(connection: sa.Connection, seat: Any, *, now: float, ended: bool = False) -> str:
    """Hand in what is stored and return its receipt; a second time changes nothing.

    After the end, or where the page says that its time is over (`ended`), there is nothing to hand in: then
    the receipt tells what is stored, and more time given later still lets the candidate go on.

    Raises
    ------
    Refusal
        If the seat has not begun, or its clock is paused.
    """
    if seat.handed_in_at is not None:
        return str(seat.receipt)
    sitting = sitting_of(connection, seat)
    why = blocked(sitting, seat, times_of(connection, sitting, seat, now=now), now=now, grace=True)
    if why and why not in OVER:
        raise Refusal(403, why)
    held = records(connection, seat)
    receipt = receipt_of(seat.candidate, held)
    if why or ended:
        connection.execute(seats.update().where(seats.c.id == seat.id).values(receipt=receipt))
        return receipt
    connection.execute(seats.update().where(seats.c.id == seat.id).values(handed_in_at=now, receipt=receipt))
    told = {one.exercise: one.revision for one in held}
    log(
        connection,
        chain_of_seat(seat.id),
        "handed-in",
        at=now,
        actor=seat.candidate,
        receipt=receipt,
        answers=told,
    )
    return receipt
