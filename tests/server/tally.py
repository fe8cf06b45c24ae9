"""Held against what candidates remember: what the store and the event log have."""

import hashlib
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import sqlalchemy as sa

from tests.server.sitters import Sitter
from zonelib.desk.server.events import verify
from zonelib.desk.server.store import open_store
from zonelib.desk.server.tables import answers, events, seats

__all__ = ["lost_or_doubled"]

Key = tuple[str, str, int]


def lost_or_doubled(folder: Path, database: str | None, sitters: Sequence[Sitter]) -> list[str]:
    """Return what is missing, older than confirmed, different, or stored twice; nothing where all is well."""
    store = open_store(folder, database)
    try:
        with store.reading() as connection:
            return list(_found(connection, sitters))
    finally:
        store.close()


def _found(connection: sa.Connection, sitters: Sequence[Sitter]) -> Iterator[str]:
    kept, logged, receipts = _kept(connection), _logged(connection), _receipts(connection)
    for one in sitters:
        yield from one.troubles
        yield from _of_seat(one, kept, logged)
        if one.receipt != receipts[one.number]:
            yield f"{one.number}: the receipt {one.receipt!r} is not the stored {receipts[one.number]!r}"
    for key, times in Counter(key for key, _ in logged).items():
        if times > 1:
            yield f"{key}: stored {times} times"
    yield from map(str, verify(connection, "autumn")[1])


def _of_seat(one: Sitter, kept: dict[Key, str], logged: list[tuple[Key, str]]) -> Iterator[str]:
    codes = {key: code for key, code in logged if key[0] == one.number}
    newest: dict[str, int] = {}
    for (exercise, revision), text in one.confirmed.items():
        newest[exercise] = max(newest.get(exercise, 0), revision)
        if codes.get((one.number, exercise, revision)) != hashlib.sha256(text.encode()).hexdigest():
            yield f"{one.number}: revision {revision} of {exercise} was confirmed and is not in the log"
    for exercise, revision in newest.items():
        if kept.get((one.number, exercise, revision)) != one.confirmed[exercise, revision]:
            yield f"{one.number}: revision {revision} of {exercise} was confirmed and is not what is stored"


def _kept(connection: sa.Connection) -> dict[Key, str]:
    joined = answers.join(seats, seats.c.id == answers.c.seat)
    query = sa.select(seats.c.candidate, answers.c.exercise, answers.c.revision, answers.c.body)
    rows = connection.execute(query.select_from(joined))
    return {(row.candidate, row.exercise, row.revision): row.body for row in rows}


def _logged(connection: sa.Connection) -> list[tuple[Key, str]]:
    query = sa.select(events.c.actor, events.c.detail).where(events.c.kind == "saved")
    found = []
    for row in connection.execute(query):
        told = json.loads(row.detail)
        found.append(((row.actor, told["exercise"], told["revision"]), told["answer"]))
    return found


def _receipts(connection: sa.Connection) -> dict[str, str]:
    rows = connection.execute(sa.select(seats.c.candidate, seats.c.receipt))
    return {row.candidate: row.receipt or "" for row in rows}
