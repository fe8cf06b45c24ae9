"""The same room on PostgreSQL, shared by two servers: what SQLite grants by its one lock must hold here."""

import json
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
import sqlalchemy as sa

from tests.server.changing import DROP, Marked
from tests.server.processes import cluster
from tests.server.room import NAMES, ROUTE, START, Client, Room, laid_out, opened_room, plan, served, wait_for
from zonelib.desk.server.acting import Act, act
from zonelib.desk.server.asking import SEATS_HELD
from zonelib.desk.server.events import verify
from zonelib.desk.server.store import open_store
from zonelib.desk.server.tables import events, seats

pytestmark = pytest.mark.notebook


@pytest.fixture(scope="module")
def database() -> Iterator[str]:
    with cluster() as address:
        yield address


def empty(folder: Path, database: str) -> None:
    """Take all out of the database."""
    store = open_store(folder, database)
    with store.writing() as connection:
        connection.execute(sa.text("DROP SCHEMA public CASCADE"))
        connection.execute(sa.text("CREATE SCHEMA public"))
    store.close()


@pytest.fixture
def shared(tmp_path: Path, database: str) -> Iterator[Room]:
    """Return a room whose database is empty but for its sitting."""
    empty(tmp_path, database)
    with opened_room(tmp_path, plan(), database=database) as room:
        yield room


def route(y: int) -> dict[str, object]:
    return {**ROUTE, "points": [[700, 2400], [700, y], [1250, 450]]}


def test_a_whole_sitting_from_the_code_to_the_seal(shared: Room) -> None:
    seat, other = shared.seat("C-001"), shared.client()
    assert [seat.save("bedroom-drop", n, route(n)).status for n in (1, 2)] == [200, 200]
    assert seat.save("bedroom-drop", 1, route(1)).data["error"] == "older"
    for name, more in (("pause", {}), ("resume", {}), ("add", {"minutes": 5.0})):
        assert shared.act(name, **more).status == 200  # type: ignore[arg-type]
    assert other.post("/api/sign-in", code=shared.codes["C-001"]).data["state"] == "waiting"
    assert shared.act("move", seat="C-001").status == 200
    other.token = other.get("/api/sitting").data["token"]
    assert other.get("/api/sitting").data["pulse"]["left"] == 35 * 60
    assert other.post("/api/hand-in").data["receipt"]
    assert shared.act("close").status == 200
    assert shared.act("release").status == 200
    with shared.store.reading() as connection:
        assert verify(connection, "autumn")[1] == []


def test_changes_that_two_servers_get_at_once_are_stored_once_each(shared: Room) -> None:
    seat = shared.seat("C-001")
    with served(shared.store, shared.hands) as (_, port):
        pages = [seat, Client(port, cookies=dict(seat.cookies), token=seat.token)]
        sent = [(page, n) for n in range(1, 13) for page in pages]
        with ThreadPoolExecutor(4) as hands:
            replies = list(hands.map(lambda one: one[0].save("bedroom-drop", one[1], route(one[1])), sent))
    assert {one.status for one in replies} <= {200, 409}
    assert seat.get("/api/question/bedroom-drop").data["revision"] == 12
    with shared.store.reading() as connection:
        query = sa.select(events.c.detail).where(events.c.kind == "saved")
        stored = Counter(json.loads(text)["revision"] for text in connection.execute(query).scalars())
        assert set(stored.values()) == {1}
        assert verify(connection, "autumn")[1] == []


def test_two_servers_that_start_at_once_make_the_tables_once(tmp_path: Path, database: str) -> None:
    empty(tmp_path, database)
    with ThreadPoolExecutor(4) as hands:
        opened = list(hands.map(lambda _: open_store(tmp_path, database), range(4)))
    assert len({one.secret for one in opened}) == 1
    for one in opened:
        one.close()
    assert len(laid_out(tmp_path, plan(names=NAMES[:1]), database=database)) == 3


def test_time_for_all_holds_seats_in_the_order_in_which_saves_hold_them(shared: Room) -> None:
    """In two orders each might wait for the other, and the database would end one of them."""
    first, *_, last = ids = sorted(shared.id_of(number) for number in shared.codes)
    for one in reversed(ids):  # so that they lie in the table the other way round
        with shared.store.writing() as connection:
            connection.execute(seats.update().where(seats.c.id == one).values(extra=seats.c.extra))
    told = Act(name="add", sitting="autumn", seat=None, minutes=1, reason="a test", now=START)

    def add() -> None:
        with shared.store.writing() as connection:
            act(connection, told)

    with ThreadPoolExecutor(1) as hands:
        with shared.store.writing() as saving:
            saving.execute(SEATS_HELD, {"seats": [first]})
            adding = hands.submit(add)
            wait_for(lambda: someone_waits(shared))
            last_row = sa.select(seats).where(seats.c.id == last)
            with shared.store.writing() as other:
                assert other.execute(last_row.with_for_update(nowait=True)).one().id == last
        adding.result(20)


def someone_waits(room: Room) -> bool:
    with room.store.reading() as connection:
        waiting = sa.text("SELECT count(*) FROM pg_locks WHERE NOT granted")
        return bool(connection.execute(waiting).scalar_one())


def test_a_mark_is_changed_while_its_candidate_goes_on_saving(tmp_path: Path, database: str) -> None:
    """Both write lines of one seat's log: each waits for the other, and none is lost."""
    empty(tmp_path, database)
    with opened_room(tmp_path, plan("homework", names=NAMES[:1], seats=1), database=database) as room:
        seat = room.seat()
        seat.save(DROP, 1, ROUTE)
        made = Marked(room, seat, tmp_path, database)
        made.mark()
        with ThreadPoolExecutor(1) as hands:
            saving = hands.submit(lambda: [seat.save(DROP, n, route(n)).status for n in range(2, 32)])
            changed = [made.change(score).exit_code for score in (5, 6, 7)]
            assert saving.result(60) == [200] * 30
        assert changed == [0, 0, 0]
        room.act("release")
        assert made.counts() == {DROP: 7.0}
        assert made.change(None).exit_code == 0
        assert made.counts() == {DROP: made.computed()}
        assert [one["score"] for one in made.log()] == [5.0, 6.0, 7.0, None]
