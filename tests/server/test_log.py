"""The event log: what is in it, and that nobody changes it without being found out."""

import json
from collections.abc import Callable
from typing import Any

import pytest
import sqlalchemy as sa

from tests.server.room import ROUTE, Room
from zonelib.desk.server.events import chain_of_seat, last_hash, sealed_by, verify
from zonelib.desk.server.tables import events

Tamper = Callable[[sa.Connection, str], None]


def sit(room: Room) -> str:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    seat.save("bedroom-drop", 2, {})
    room.act("add", seat="C-001", minutes=5, reason="a late start")
    seat.post("/api/hand-in")
    room.act("close", reason="time is over")
    return chain_of_seat(room.id_of("C-001"))


def checked(room: Room) -> list[str]:
    with room.store.reading() as connection:
        return [one.why for one in verify(connection, "autumn")[1]]


def test_a_log_that_nobody_touched_holds(room: Room) -> None:
    sit(room)
    assert checked(room) == []


def test_every_act_stands_there_with_who_and_why(room: Room) -> None:
    chain = sit(room)
    with room.store.reading() as connection:
        query = sa.select(events).where(events.c.chain == chain).order_by(events.c.number)
        rows = connection.execute(query).all()
    assert [row.kind for row in rows] == [
        "seat", "signed-in", "started", "saved", "saved", "time-added", "handed-in",
    ]  # fmt: skip
    added = rows[5]
    assert added.actor == "invigilator"
    assert json.loads(added.detail) == {"reason": "a late start", "seconds": 300.0}


def change_detail(connection: sa.Connection, chain: str) -> None:
    row = (events.c.chain == chain) & (events.c.number == 4)
    connection.execute(events.update().where(row).values(detail="{}"))


def change_time(connection: sa.Connection, chain: str) -> None:
    row = (events.c.chain == chain) & (events.c.number == 4)
    connection.execute(events.update().where(row).values(at=events.c.at - 60))


def take_out(connection: sa.Connection, chain: str) -> None:
    connection.execute(events.delete().where((events.c.chain == chain) & (events.c.number == 4)))


def cut_off(connection: sa.Connection, chain: str) -> None:
    connection.execute(events.delete().where((events.c.chain == chain) & (events.c.number >= 6)))


def take_all(connection: sa.Connection, chain: str) -> None:
    connection.execute(events.delete().where(events.c.chain == chain))


@pytest.mark.parametrize(
    ("tamper", "why"),
    [
        (change_detail, "it was changed after it was written"),
        (change_time, "it was changed after it was written"),
        (take_out, "missing; the next line is 5"),
        (cut_off, "which is gone or changed"),
        (take_all, "which is gone or changed"),
    ],
)
def test_what_was_tampered_with_is_found(room: Room, tamper: Tamper, why: str) -> None:
    chain = sit(room)
    with room.store.writing() as connection:
        tamper(connection, chain)
    assert any(why in one for one in checked(room))


def test_the_seal_that_was_written_down_is_known_again(room: Room) -> None:
    sit(room)
    with room.store.reading() as connection:
        seal: Any = last_hash(connection, "autumn")
        assert sealed_by(connection, "autumn", seal.upper())
        assert not sealed_by(connection, "autumn", "0" * 64)
