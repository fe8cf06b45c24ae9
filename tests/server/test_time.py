"""The clock: extra time, pauses, more time, the end, and what is done to the machine's date."""

from pathlib import Path

import pytest

from tests.server.room import ROUTE, Client, Hands, Room, opened_room, plan, served, wait_for
from zonelib.desk.server.clock import Clock
from zonelib.sheet.timing import paused, times

HALF = 30 * 60.0


def left(seat: Client) -> float:
    return float(seat.get("/api/sitting").data["pulse"]["left"])


def test_the_time_runs_from_the_start_and_extra_time_counts(room: Room) -> None:
    one, two = room.seat("C-001"), room.seat("C-002", start=False)
    assert (left(one), left(two)) == (HALF, HALF * 1.25)
    room.hands.pass_by(600)
    assert (left(one), left(two)) == (HALF - 600, HALF * 1.25)
    two.post("/api/start")
    room.hands.pass_by(60)
    assert (left(one), left(two)) == (HALF - 660, HALF * 1.25 - 60)


def test_a_second_start_changes_nothing(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(100)
    seat.post("/api/start")
    assert left(seat) == HALF - 100


def test_time_is_added_for_one_and_for_all(room: Room) -> None:
    one, three = room.seat("C-001"), room.seat("C-003")
    assert room.act("add", seat="C-001", minutes=5).status == 200
    assert room.act("add", minutes=2).status == 200
    assert (left(one), left(three)) == (HALF + 420, HALF + 120)


def test_more_time_lets_those_go_on_whose_time_was_over(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(HALF + 60)
    assert seat.post("/api/hand-in").data["receipt"]
    assert seat.save("bedroom-drop", 1, ROUTE).data["error"] == "ended"
    room.act("add", minutes=5)
    assert left(seat) == 240
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


def test_a_pause_stops_the_clock_and_answers(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(60)
    assert room.act("pause", reason="fire alarm").status == 200
    room.hands.pass_by(900)
    assert left(seat) == HALF - 60
    assert seat.get("/api/sitting").data["pulse"]["may_answer"] is False
    assert seat.save("bedroom-drop", 1, ROUTE).data["error"] == "paused"
    assert room.act("resume").status == 200
    room.hands.pass_by(40)
    assert left(seat) == HALF - 100
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


def test_one_candidate_may_rest_while_the_others_work(room: Room) -> None:
    one, three = room.seat("C-001"), room.seat("C-003")
    room.act("pause", seat="C-001", reason="rest break")
    room.hands.pass_by(300)
    room.act("resume", seat="C-001")
    assert (left(one), left(three)) == (HALF, HALF - 300)


def test_pauses_that_overlap_count_once() -> None:
    assert paused([(10, 20), (15, 30)], 0, 100) == 20
    assert paused([(10, 20), (15, None)], 0, 40) == 30
    assert paused([(10, 20)], 12, 15) == 3
    assert paused([(10, 20)], 25, 30) == 0
    assert paused([], 0, 100) == 0


def test_before_the_start_a_pause_costs_nothing() -> None:
    at = times(100, 10, started_at=50, pauses=[(0, 40)], now=60)
    assert (at.ends_at, at.left) == (160, 100)


def test_who_handed_in_may_be_let_go_on_with_what_was_left(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(600)
    seat.post("/api/hand-in")
    assert room.act("reopen", seat="C-001", minutes=5).status == 200
    assert left(seat) == HALF - 600
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


def test_who_ran_out_of_time_may_be_let_go_on_with_minutes_given(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(HALF + 1000)
    assert room.act("reopen", seat="C-001", minutes=5).status == 200
    assert left(seat) == 300


def test_a_close_ends_it_for_all_and_a_second_opening_lets_all_go_on(room: Room) -> None:
    seat = room.seat()
    room.act("close")
    room.hands.pass_by(6)
    assert seat.save("bedroom-drop", 1, ROUTE).data["error"] == "closed"
    assert room.act("open").status == 200
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


@pytest.mark.parametrize("moved", [-7200.0, 7200.0])
def test_setting_the_machines_date_moves_nobodys_end(room: Room, moved: float) -> None:
    seat = room.seat()
    room.hands.pass_by(60)
    room.hands.date += moved
    assert room.server.clock.look() == pytest.approx(moved)
    assert room.server.clock.look() == 0.0
    room.hands.pass_by(60)
    assert left(seat) == HALF - 120


def test_small_drift_is_followed_and_time_never_runs_back() -> None:
    hands = Hands()
    clock = Clock(lambda: hands.date, count=lambda: hands.count)
    start = clock()
    hands.count, hands.date = hands.count + 10, hands.date + 9.5
    assert clock() == start + 10
    assert clock.look() == 0.0
    assert clock() == start + 10
    hands.pass_by(1)
    assert clock() == start + 10.5


def test_a_server_started_with_its_date_set_back_goes_on_from_where_it_was() -> None:
    clock = Clock(lambda: 1000.0, floor=5000.0, count=lambda: 0.0)
    assert (clock(), clock.behind) == (5000.0, 4000.0)


def test_a_second_server_tells_the_same_time_left(room: Room) -> None:
    seat = room.seat()
    room.hands.pass_by(120)
    with served(room.store, room.hands) as (_, port):
        other = Client(port, cookies=dict(seat.cookies), token=seat.token)
        assert left(other) == HALF - 120
        assert other.save("bedroom-drop", 1, ROUTE).status == 200
    assert seat.get("/api/question/bedroom-drop").data["revision"] == 1


def test_a_time_without_a_server_is_told_and_can_be_given_back(tmp_path: Path) -> None:
    with opened_room(tmp_path, plan()) as room:
        seat = room.seat()
        wait_for(lambda: beats(room) == 1)
        room.hands.pass_by(120)
        with served(room.store, room.hands) as (_, port):
            desk = room.desk()
            wait_for(lambda: desk.get("/api/desk/autumn").data["away"])
            assert desk.get("/api/desk/autumn").data["away"][0]["seconds"] == 120
            other = Client(port, cookies=dict(seat.cookies), token=seat.token)
            assert left(other) == HALF - 120
            room.act("add", minutes=2, reason="no server was running")
            assert left(other) == HALF


def beats(room: Room) -> int:
    from zonelib.desk.server.tables import servers

    with room.store.reading() as connection:
        return len(connection.execute(servers.select()).all())
