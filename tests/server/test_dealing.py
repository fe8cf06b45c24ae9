"""Rooms are dealt evenly: a small group by chance alone could all have the same one."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
import sqlalchemy as sa

from tests.server.room import NAMES, START, plan
from zonelib.desk.server.making import Candidate, Choice, Plan, add_seat, make_sitting
from zonelib.desk.server.store import Store, open_store
from zonelib.desk.server.tables import seat_items
from zonelib.exercise.bundle import Bundle


def several(shuffled: bool, *, seats: int) -> Plan:
    """Return a sitting of two exercises, with three rooms for the first."""
    made = plan(names=NAMES[:2], seats=seats)
    (first,), second = made.exercises
    rooms = [
        Choice(Bundle({**first.bundle.data, "zonelib": f"0.1.0+{number}"}), f"room-{number}")
        for number in range(3)
    ]
    return replace(made, exercises=[rooms, second], shuffled=shuffled)


def shares(store: Store) -> Counter[str]:
    with store.reading() as connection:
        found = connection.execute(sa.select(seat_items.c.variant)).scalars()
        return Counter(one for one in found if one)


@pytest.mark.parametrize("shuffled", [True, False])
def test_every_room_goes_to_as_many_and_a_late_seat_takes_what_is_rarest(
    tmp_path: Path, shuffled: bool
) -> None:
    store = open_store(tmp_path)
    with store.writing() as connection:
        made = several(shuffled, seats=11)
        make_sitting(connection, made, secret=store.secret, now=START)
    assert sorted(shares(store).values()) == [3, 4, 4]
    with store.writing() as connection:
        add_seat(connection, made.id, Candidate("C-900"), secret=store.secret, now=START)
    assert sorted(shares(store).values()) == [4, 4, 4]
    store.close()


def test_who_has_which_room_cannot_be_told_from_the_list(tmp_path: Path) -> None:
    def drawn(folder: Path) -> list[str | None]:
        folder.mkdir()
        store = open_store(folder)
        with store.writing() as connection:
            make_sitting(connection, several(shuffled=True, seats=30), secret=store.secret, now=START)
        with store.reading() as connection:
            found = list(connection.execute(sa.select(seat_items.c.variant)).scalars())
        store.close()
        return found

    assert drawn(tmp_path / "first") != drawn(tmp_path / "second")
