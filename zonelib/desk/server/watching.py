"""What the invigilator sees: every seat of a sitting, from the database alone."""

import json
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.changes import CHANGED
from zonelib.desk.server.events import chain_of_seat, chain_of_sitting
from zonelib.desk.server.state import GONE, blocked
from zonelib.desk.server.tables import answers, events, pauses, seat_items, seats, sittings, takeovers
from zonelib.sheet.timing import Span, Times, times

__all__ = ["all_sittings", "last_events", "watched"]

MOST_EVENTS = 60
QUIET = ("saved", "seat", CHANGED)
"""Kinds of events that are not listed: too many, or of marks, which the invigilator is not sent."""


def all_sittings(connection: sa.Connection) -> list[dict[str, Any]]:
    """Return the sittings, the newest first."""
    query = sa.select(sittings).order_by(sittings.c.made_at.desc())
    names = ("id", "title", "mode", "state", "seconds", "released_at")
    return [{name: row[name] for name in names} for row in connection.execute(query).mappings()]


def watched(connection: sa.Connection, sitting: Any, *, now: float) -> dict[str, Any]:
    """Return how a sitting and each of its seats stand."""
    spans, asked, done, order = (
        _spans(connection, sitting),
        _asked(connection, sitting),
        _done(connection, sitting),
        _order(connection, sitting),
    )
    rows = connection.execute(
        sa.select(seats).where(seats.c.sitting == sitting.id).order_by(seats.c.candidate)
    )
    told = []
    for seat in rows:
        pauses_of = [span for owner, span in spans if owner in (None, seat.id)]
        at = times(sitting.seconds, seat.extra, started_at=seat.started_at, pauses=pauses_of, now=now)
        more = {"answered": done.get(seat.id, 0), "asks": asked.get(seat.id)}
        told.append(
            {**_told(sitting, seat, at, now), **more, "question": order.get((seat.id, seat.at_exercise))}
        )
    head = {
        name: getattr(sitting, name) for name in ("id", "title", "mode", "state", "seconds", "released_at")
    }
    whole = any(owner is None and ends is None for owner, (_, ends) in spans)
    many = max((at for (_, _), at in order.items()), default=0)
    return {
        **head,
        "now": now,
        "paused": whole,
        "questions": many,
        "seats": told,
        "away": _away(connection, sitting),
    }


def _spans(connection: sa.Connection, sitting: Any) -> list[tuple[str | None, Span]]:
    query = sa.select(pauses).where(pauses.c.sitting == sitting.id)
    return [(row.seat, (row.begins, row.ends)) for row in connection.execute(query)]


def _asked(connection: sa.Connection, sitting: Any) -> dict[str, float]:
    """Return for each seat that waits for a move since when."""
    joined = takeovers.join(seats, seats.c.id == takeovers.c.seat)
    query = sa.select(takeovers.c.seat, sa.func.max(takeovers.c.asked_at)).select_from(joined)
    wanted = (seats.c.sitting == sitting.id) & takeovers.c.decision.is_(None)
    rows = connection.execute(query.where(wanted).group_by(takeovers.c.seat))
    return {row[0]: row[1] for row in rows}


def _done(connection: sa.Connection, sitting: Any) -> dict[str, int]:
    joined = answers.join(seats, seats.c.id == answers.c.seat)
    query = sa.select(answers.c.seat, sa.func.count()).select_from(joined)
    wanted = (seats.c.sitting == sitting.id) & (answers.c.body != "{}")
    rows = connection.execute(query.where(wanted).group_by(answers.c.seat))
    return {row[0]: row[1] for row in rows}


def _order(connection: sa.Connection, sitting: Any) -> dict[tuple[str, str], int]:
    joined = seat_items.join(seats, seats.c.id == seat_items.c.seat)
    query = sa.select(seat_items.c.seat, seat_items.c.exercise, seat_items.c.position).select_from(joined)
    rows = connection.execute(query.where(seats.c.sitting == sitting.id))
    return {(row.seat, row.exercise): row.position for row in rows}


def _told(sitting: Any, seat: Any, at: Times, now: float) -> dict[str, Any]:
    gone = None if seat.seen_at is None else max(now - seat.seen_at, 0.0)
    return {
        "id": seat.id,
        "candidate": seat.candidate,
        "is": _standing(sitting, seat, at, now),
        "in": seat.session is not None,
        "gone": gone if gone is not None and gone > GONE / 2 else 0.0,
        "extra": seat.extra,
        "left": at.left,
        "paused": at.is_paused,
        "saved_at": seat.saved_at,
        "receipt": seat.receipt,
    }


def _standing(sitting: Any, seat: Any, at: Times, now: float) -> str:
    if seat.handed_in_at is not None:
        return "handed-in"
    if seat.started_at is None:
        return "in" if seat.session else "away"
    why = blocked(sitting, seat, at, now=now)
    return why or "working"


def _away(connection: sa.Connection, sitting: Any) -> list[dict[str, Any]]:
    """Return the times without any server, which can be given back."""
    wanted = (events.c.chain == chain_of_sitting(sitting.id)) & (events.c.kind == "server-away")
    rows = connection.execute(sa.select(events.c.at, events.c.detail).where(wanted).order_by(events.c.number))
    return [{"at": row.at, **json.loads(row.detail)} for row in rows]


def last_events(connection: sa.Connection, sitting: Any, *, most: int = MOST_EVENTS) -> list[dict[str, Any]]:
    """Return the newest lines of a sitting's log and of its seats', the newest first."""
    ids = sa.select(seats.c.id).where(seats.c.sitting == sitting.id)
    names = {
        chain_of_seat(row.id): row.candidate
        for row in connection.execute(sa.select(seats.c.id, seats.c.candidate).where(seats.c.id.in_(ids)))
    }
    chains = [chain_of_sitting(sitting.id), *names]
    wanted = events.c.chain.in_(chains) & events.c.kind.not_in(QUIET)
    rows = connection.execute(
        sa.select(events).where(wanted).order_by(events.c.at.desc(), events.c.number.desc()).limit(most)
    )
    return [
        {
            "at": row.at,
            "kind": row.kind,
            "actor": row.actor,
            "candidate": names.get(row.chain, ""),
            "detail": {key: value for key, value in json.loads(row.detail).items() if key != "heads"},
        }
        for row in rows
    ]
