"""What goes wrong in a room, and that nobody loses time or an answer by it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.server.processes import Process, free_port
from tests.server.room import ROUTE, Client, Room, laid_out, plan, served, wait_for
from zonelib.desk.server.living import beat, last_seen

HALF = 30 * 60.0
HOUR = 3600.0


def left(seat: Client) -> float:
    return float(seat.get("/api/sitting").data["pulse"]["left"])


def alive(room: Room) -> float:
    """Let the server tell that it lives; return for how long none did [s]."""
    with room.store.writing() as connection:
        return beat(connection, room.server.name, now=room.server.clock())


@contextmanager
def restarted(room: Room, seat: Client) -> Iterator[Client]:
    """Give the same page before a server that was started anew, as `zonelib serve` starts it."""
    with room.store.reading() as connection:
        floor = last_seen(connection)
    with served(room.store, room.hands, floor=floor) as (_, port):
        yield Client(port, cookies=dict(seat.cookies), token=seat.token)


def test_a_machine_that_slept_for_an_hour_takes_no_answer_away_and_its_time_can_be_given_back(
    room: Room,
) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    alive(room)
    room.hands.pass_by(HOUR)
    assert alive(room) == HOUR
    assert seat.save("bedroom-drop", 2, {}).data["error"] == "ended"
    assert room.desk().get("/api/desk/autumn").data["away"][0]["seconds"] == HOUR
    room.act("add", minutes=60, reason="the machine slept")
    assert left(seat) == HALF
    assert seat.save("bedroom-drop", 2, {}).status == 200


def test_a_date_that_jumps_by_hours_while_the_count_goes_on_is_no_time(room: Room) -> None:
    seat = room.seat()
    alive(room)
    for jump in (5 * HOUR, -9 * HOUR):
        room.hands.pass_by(4)
        room.hands.date += jump
        room.server.clock.look()
        assert alive(room) == 0
    assert left(seat) == HALF - 8
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


@pytest.mark.parametrize("hours", [2, 48])
def test_a_server_started_with_its_date_set_back_gives_nobody_hours_more(room: Room, hours: int) -> None:
    seat = room.seat()
    room.hands.pass_by(600)
    seat.save("bedroom-drop", 1, ROUTE)
    alive(room)
    room.hands.date -= hours * HOUR
    with restarted(room, seat) as page:
        assert left(page) == HALF - 600
        room.hands.pass_by(60)
        assert left(page) == HALF - 660
        assert page.save("bedroom-drop", 2, {}).status == 200


def test_a_server_started_with_its_date_set_ahead_tells_it_and_the_time_can_be_given_back(room: Room) -> None:
    seat = room.seat()
    wait_for(lambda: seen(room))
    room.hands.date += 2 * HOUR
    with restarted(room, seat) as page:
        wait_for(lambda: room.desk().get("/api/desk/autumn").data["away"])
        assert left(page) == 0
        room.act("add", minutes=120, reason="the date was wrong")
        assert left(page) == HALF


def seen(room: Room) -> float:
    with room.store.reading() as connection:
        return last_seen(connection)


def test_a_crashed_browser_signs_in_again_and_the_old_one_cannot_write_any_more(room: Room) -> None:
    old = room.seat()
    old.save("bedroom-drop", 1, ROUTE)
    room.hands.pass_by(300)
    new = room.client()
    assert new.post("/api/sign-in", code=room.codes["C-001"]).data["state"] == "waiting"
    assert new.get("/api/question/bedroom-drop").data["error"] == "waiting"
    assert room.act("move", seat="C-001", reason="the browser crashed").status == 200
    new.token = new.get("/api/sitting").data["token"]
    assert new.get("/api/question/bedroom-drop").data["answer"] == ROUTE
    assert left(new) == HALF - 300
    assert new.save("bedroom-drop", 2, {}).status == 200
    late = old.save("bedroom-drop", 3, ROUTE)
    assert (late.status, late.data["error"]) == (401, "moved")
    assert new.get("/api/question/bedroom-drop").data["revision"] == 2


def test_two_minutes_without_a_network_are_seen_by_the_invigilator_and_logged(room: Room) -> None:
    seat = room.seat()
    seat.post("/api/pulse", at="bedroom-drop")
    room.hands.pass_by(120)
    row = room.desk().get("/api/desk/autumn").data["seats"][0]
    assert row["gone"] == 120
    seat.post("/api/pulse", at="bedroom-drop")
    desk = room.desk().get("/api/desk/autumn").data
    assert desk["seats"][0]["gone"] == 0
    assert (desk["events"][0]["kind"], desk["events"][0]["detail"]) == ("back", {"away": 120.0})
    assert left(seat) == HALF - 120


@pytest.mark.notebook
def test_a_server_killed_as_by_a_power_cut_comes_back_with_the_same_clock_and_answers(tmp_path: Path) -> None:
    codes = laid_out(tmp_path, plan())
    server = Process(tmp_path, free_port()).start()
    try:
        seat = Client(server.port).enter(codes["C-001"])
        seat.post("/api/start")
        before = seat.get("/api/sitting").data["pulse"]
        seat.save("bedroom-drop", 1, ROUTE)
        server.kill()
        server.start()
        after = seat.get("/api/sitting").data["pulse"]
        assert after["ends_at"] == before["ends_at"]
        assert after["now"] - before["now"] == pytest.approx(before["left"] - after["left"])
        assert seat.get("/api/question/bedroom-drop").data["answer"] == ROUTE
        assert seat.save("bedroom-drop", 2, {}).status == 200
    finally:
        server.kill()
