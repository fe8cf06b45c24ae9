"""Changes of many seats in one transaction: as if each came by itself, and for hardly more than one."""

import asyncio
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
import sqlalchemy as sa
from sqlalchemy.exc import OperationalError

from tests.server.processes import run_apart
from tests.server.room import ROUTE, START, Room
from zonelib.desk.server.answers import Change
from zonelib.desk.server.events import verify
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import Session
from zonelib.desk.server.tables import answers, events, seats
from zonelib.desk.server.together import Look, Save, Wish, carry_out
from zonelib.desk.server.web.waiting import MOST, Waiting

NOW = START + 1
OTHER = {**ROUTE, "points": [[700, 2400], [700, 455], [1250, 455]]}


def sessions(room: Room) -> list[Session]:
    """Sit three candidates and return their sessions."""
    return [room.session(number) for number in ("C-001", "C-002", "C-003")]


def save(who: Session, revision: int, answer: dict[str, Any]) -> Save:
    return Save(who, NOW, "bedroom-drop", Change(revision=revision, answer=answer))


def carried_out(room: Room, wishes: Sequence[Wish]) -> list[Any]:
    with room.store.writing() as connection:
        return carry_out(connection, room.store.secret, wishes)


def test_two_changes_of_a_seat_in_one_group_are_stored_in_their_order(room: Room) -> None:
    one, two, _ = sessions(room)
    told = carried_out(room, [save(one, 1, ROUTE), save(two, 7, ROUTE), save(one, 2, OTHER)])
    assert [one["revision"] for one in told] == [1, 7, 2]
    with room.store.reading() as connection:
        kept = {row.seat: row.revision for row in connection.execute(answers.select())}
        logged = connection.execute(events.select().where(events.c.kind == "saved")).all()
        assert verify(connection, "autumn")[1] == []
    assert kept == {one.seat: 2, two.seat: 7}
    assert len(logged) == 3


def test_what_is_refused_leaves_the_rest_of_its_group_as_it_is(room: Room) -> None:
    one, two, three = sessions(room)
    carried_out(room, [save(one, 5, ROUTE)])
    strange = Session(two.seat, "somebody else")
    group = [save(one, 4, OTHER), save(strange, 1, ROUTE), save(two, 1, {"points": 3}), save(three, 1, OTHER)]
    told = carried_out(room, [*group, Look(two, NOW, None)])
    refused = [one.entry for one in told if isinstance(one, Refusal)]
    assert refused == ["older", "moved", "not-an-answer"]
    assert told[0].more["answer"] == ROUTE
    assert told[3]["revision"] == 1
    assert told[4]["may_answer"]
    with room.store.reading() as connection:
        kept = {row.seat: row.revision for row in connection.execute(answers.select())}
    assert kept == {one.seat: 5, three.seat: 1}


def test_a_look_after_a_save_of_its_group_knows_of_it(room: Room) -> None:
    one, *_ = sessions(room)
    told = carried_out(room, [save(one, 1, ROUTE), Look(one, NOW, "bedroom-zones")])
    assert told[1]["saved_at"] == NOW


def test_three_seats_ask_no_more_of_the_database_than_one(room: Room) -> None:
    sitting, asked = sessions(room), list[str]()

    def note(_connection: Any, _cursor: Any, statement: str, *_more: Any) -> None:
        asked.append(statement)

    carried_out(room, [save(one, 1, ROUTE) for one in sitting])
    sa.event.listen(room.store.engine, "before_cursor_execute", note)
    carried_out(room, [save(sitting[0], 2, OTHER)])
    alone, asked[:] = len(asked), []
    carried_out(room, [save(one, 3, ROUTE) for one in sitting])
    assert len(asked) == alone <= 9


class Slow:
    """Carries out groups of numbers slowly, and remembers them; -1 fails its group, and so does -2."""

    def __init__(self) -> None:
        self.groups: list[list[int]] = []

    def __call__(self, wishes: Sequence[int]) -> list[int]:
        self.groups.append(list(wishes))
        time.sleep(0.02)
        if -1 in wishes:
            raise ValueError("not this one")
        if -2 in wishes:
            raise OperationalError("SAVE", None, Exception("the database is away"))
        return [10 * one for one in wishes]


def asked(slow: Slow, wishes: Sequence[int]) -> list[Any]:
    async def ask() -> list[Any]:
        with ThreadPoolExecutor(1) as hands:
            waiting = Waiting(slow, hands)
            first = asyncio.create_task(waiting.ask(0))
            await asyncio.sleep(0.01)
            rest = [waiting.ask(one) for one in wishes]
            return [await first, *await asyncio.gather(*rest, return_exceptions=True)]

    return run_apart(ask())


def test_what_waits_goes_together_and_each_is_told_its_own() -> None:
    slow = Slow()
    assert asked(slow, [1, 2, 3]) == [0, 10, 20, 30]
    assert slow.groups == [[0], [1, 2, 3]]


def test_a_group_has_a_bound() -> None:
    slow = Slow()
    assert asked(slow, range(1, MOST + 2)) == [10 * one for one in range(MOST + 2)]
    assert [len(group) for group in slow.groups] == [1, MOST, 1]


def test_a_wish_that_cannot_be_carried_out_harms_no_other_of_its_group() -> None:
    slow = Slow()
    told = asked(slow, [1, -1, 3])
    assert [told[0], told[1], told[3]] == [0, 10, 30]
    assert isinstance(told[2], ValueError)
    assert slow.groups[1:] == [[1, -1, 3], [1], [-1], [3]]


def test_while_the_database_is_away_all_of_a_group_are_told_at_once_and_the_next_goes_on() -> None:
    slow = Slow()
    told = asked(slow, [-2, *range(100, 100 + MOST)])
    assert all(isinstance(one, OperationalError) for one in told[1 : MOST + 1])
    assert told[-1] == 10 * (99 + MOST)
    assert len(slow.groups) == 3


def test_who_goes_away_while_it_waits_holds_up_nobody() -> None:
    async def ask() -> int:
        with ThreadPoolExecutor(1) as hands:
            waiting = Waiting(Slow(), hands)
            gone = asyncio.create_task(waiting.ask(1))
            await asyncio.sleep(0.005)
            gone.cancel()
            return await asyncio.wait_for(waiting.ask(2), timeout=5)

    assert run_apart(ask()) == 20


@pytest.mark.parametrize("at", ["\0", "\ud800", "a b", "x" * 70, 7])
def test_a_page_that_tells_nonsense_of_where_it_is_is_on_no_question(room: Room, at: object) -> None:
    """A sign that a database refuses would fail the whole group."""
    seat = room.seat()
    assert seat.post("/api/pulse", at="bedroom-drop").status == 200
    assert seat.post("/api/pulse", at=at).status == 200
    with room.store.reading() as connection:
        (row,) = connection.execute(seats.select().where(seats.c.candidate == "C-001"))
    assert row.at_exercise is None


@pytest.mark.parametrize("kind", ["save", "look"])
def test_a_page_that_never_signed_in_is_told_so(room: Room, kind: str) -> None:
    nobody = Session("0" * 16, "none")
    wish = save(nobody, 1, ROUTE) if kind == "save" else Look(nobody, NOW, None)
    assert [one.entry for one in carried_out(room, [wish])] == ["not-in"]
