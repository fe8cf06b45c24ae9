"""A candidate's way through a quiz: sign in, begin, answer, hand in, see the results."""

import json
from pathlib import Path

from tests.server.room import ROUTE, Room, opened_room, plan
from zonelib.desk.run import mark_folder
from zonelib.desk.server.handing import first_choices, handed_in, write_handed
from zonelib.exercise.handin import receipt_of


def test_the_whole_way_from_the_code_to_the_mark(room: Room, tmp_path: Path) -> None:
    seat = room.seat()
    saved = seat.save("bedroom-drop", 1, ROUTE)
    assert saved.status == 200
    assert saved.data["revision"] == 1
    handed = seat.post("/api/hand-in")
    assert handed.data["receipt"].count("-") == 1
    assert room.act("close").status == 200
    assert room.act("release").status == 200
    results = {one["exercise"]: one for one in seat.get("/api/results").data["results"]}
    assert results["bedroom-drop"]["score"] > 0
    assert results["bedroom-zones"]["score"] == 0
    with room.store.reading() as connection:
        found = handed_in(connection, "autumn", now=room.hands.date)
        common = first_choices(connection, "autumn")
    mark_folder(write_handed("autumn", found, common, tmp_path / "out"), tmp_path / "out")
    lines = (tmp_path / "out" / "marks.csv").read_text().splitlines()
    assert len(lines) == 1 + 3 * 2
    assert f"C-001,autumn,bedroom-drop,{results['bedroom-drop']['score']!r}," in lines[1]


def test_before_the_start_there_are_no_questions(room: Room) -> None:
    seat = room.seat(start=False)
    told = seat.get("/api/sitting").data
    assert told["pulse"]["started"] is False
    assert told["questions"] == [{"exercise": "", "title": ""}] * 2
    assert seat.get("/api/question/bedroom-drop").data["error"] == "not-started"
    assert seat.save("bedroom-drop", 1, ROUTE).data["error"] == "not-started"


def test_a_question_comes_with_its_stored_answer_and_the_notebooks_pad(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 4, ROUTE)
    found = seat.get("/api/question/bedroom-drop").data
    assert found["answer"] == ROUTE
    assert found["revision"] == 4
    assert found["task"]["kind"] == "route"
    assert "<p>" in found["question"]


def test_a_reload_finds_everything_as_it_was(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    seat.post("/api/flag/bedroom-zones", flagged=True)
    questions = {one["exercise"]: one for one in seat.get("/api/sitting").data["questions"]}
    assert questions["bedroom-drop"]["answered"]
    assert questions["bedroom-zones"]["flagged"]
    assert not questions["bedroom-zones"]["answered"]


def test_the_receipt_is_made_of_what_is_stored(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    receipt = seat.post("/api/hand-in").data["receipt"]
    with room.store.reading() as connection:
        found = next(one.file for one in handed_in(connection, "autumn", now=0.0) if one.file.answers)
    assert receipt == receipt_of("C-001", found.answers) == found.receipt
    assert seat.post("/api/hand-in").data["receipt"] == receipt


def test_after_handing_in_nothing_more_is_taken(room: Room) -> None:
    seat = room.seat()
    seat.post("/api/hand-in")
    refused = seat.save("bedroom-drop", 1, ROUTE)
    assert refused.status == 403
    assert refused.data["error"] == "handed-in"


def test_homework_has_no_clock_and_shows_marks_when_released(tmp_path: Path) -> None:
    with opened_room(tmp_path, plan("homework")) as room:
        seat = room.seat()
        room.hands.pass_by(3 * 86400)
        assert seat.save("bedroom-drop", 1, ROUTE).status == 200
        assert seat.get("/api/sitting").data["pulse"]["left"] is None
        assert seat.get("/api/results").data["error"] == "not-released"
        assert room.act("release").status == 200
        assert [one["points"] for one in seat.get("/api/results").data["results"]] == [10, 10]


def test_practice_tells_at_once(tmp_path: Path) -> None:
    with opened_room(tmp_path, plan("practice")) as room:
        seat = room.seat()
        seat.save("bedroom-drop", 1, ROUTE)
        found = seat.post("/api/check/bedroom-drop").data
        assert " of 10 marks" in found["view"]["score"]
        assert found["result"]["stretches"] or found["result"]["passed"]
        empty = seat.post("/api/check/bedroom-zones").data
        assert empty["view"]["notes"] == ["No zone is drawn yet."]


def test_a_quiz_does_not_check(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    assert seat.post("/api/check/bedroom-drop").data["error"] == "not-practice"


def test_each_candidate_has_an_order_of_their_own(tmp_path: Path) -> None:
    names = ("bedroom-drop", "bedroom-zones", "study-inspection", "study-how-deep")
    with opened_room(tmp_path, plan(names=names, seats=8)) as room:
        orders = {
            json.dumps([one["exercise"] for one in room.seat(number).get("/api/sitting").data["questions"]])
            for number in room.codes
        }
    assert len(orders) > 2
    assert all(sorted(json.loads(one)) == sorted(names) for one in orders)


def test_a_page_whose_time_is_over_gets_a_receipt_and_may_still_be_given_more(room: Room) -> None:
    """The page's clock may be some thousandths ahead: that is no handing in."""
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    room.hands.pass_by(30 * 60 - 0.01)
    receipt = seat.post("/api/hand-in", ended=True).data["receipt"]
    room.hands.pass_by(1)
    assert seat.post("/api/hand-in", ended=True).data["receipt"] == receipt
    room.act("add", minutes=5)
    assert seat.save("bedroom-drop", 2, {}).status == 200
