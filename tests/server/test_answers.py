"""Saving: the same change twice, an older one, a hostile one, one that comes too late."""

import json
from typing import Any

import pytest

from tests.server.room import ROUTE, Room

OTHER = {**ROUTE, "points": [[700, 2400], [700, 455], [1250, 455]]}


def stored(seat: Any) -> Any:
    return seat.get("/api/question/bedroom-drop").data["answer"]


def test_the_same_change_twice_is_stored_once(room: Room) -> None:
    seat = room.seat()
    first = seat.save("bedroom-drop", 1, ROUTE)
    room.hands.pass_by(10)
    again = seat.save("bedroom-drop", 1, ROUTE)
    assert again.status == 200
    assert again.data["saved_at"] == first.data["saved_at"]
    events = [one for one in saved_events(room) if one["revision"] == 1]
    assert len(events) == 1


def saved_events(room: Room) -> list[dict[str, Any]]:
    from zonelib.desk.server.tables import events

    with room.store.reading() as connection:
        rows = connection.execute(events.select().where(events.c.kind == "saved")).all()
    return [json.loads(row.detail) for row in rows]


def test_an_older_change_is_refused_and_the_newer_one_sent(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 5, ROUTE)
    refused = seat.save("bedroom-drop", 4, OTHER)
    assert refused.status == 409
    assert refused.data["error"] == "older"
    assert refused.data["answer"] == ROUTE
    assert refused.data["revision"] == 5
    assert stored(seat) == ROUTE


def test_another_change_of_the_same_revision_is_refused(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 5, ROUTE)
    assert seat.save("bedroom-drop", 5, OTHER).status == 409
    assert stored(seat) == ROUTE


def test_an_answer_can_be_cleared(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    assert seat.save("bedroom-drop", 2, {}).status == 200
    assert stored(seat) == {}


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ({"points": [[0, 0], [1, 1]]}, "an answer has the parts"),
        ({**ROUTE, "points": [[0, 0]] * 500, "depth": [15] * 499, "protection": ["none"] * 499}, "at most"),
        ({**ROUTE, "points": [[0, 1e9], [1, 1], [2, 2]]}, "point 1 must be two numbers"),
        ({**ROUTE, "protection": ["gold", "none"]}, "the covering of leg 1"),
        ({**ROUTE, "rcd": "yes"}, "an RCD has the parts"),
        ({**ROUTE, "more": 1}, "and no others"),
    ],
)
def test_what_no_pad_would_send_is_not_kept(room: Room, answer: object, words: str) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    refused = seat.save("bedroom-drop", 2, answer)
    assert refused.status == 400
    assert words in refused.data["words"]
    assert stored(seat) == ROUTE


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"", 400),
        (b"[]", 400),
        (b"{", 400),
        (b'{"revision": 1}', 400),
        (b'{"revision": 0, "answer": {}}', 400),
        (b'{"revision": "1", "answer": {}}', 400),
        (b'{"revision": 1.5, "answer": {}}', 400),
        (b'{"revision": 1, "answer": {}, "seat": "x"}', 400),
        (b'{"revision": 1, "answer": {"points": [[NaN, 1]]}}', 400),
        (b'{"revision": 1, "answer": ' + b"[" * 5000 + b"]" * 5000 + b"}", 400),
        (b'{"revision": 1, "answer": {"points": "' + b"x" * 300_000 + b'"}}', 413),
        (b"\xff\xfe\x00", 400),
    ],
)
def test_a_body_that_is_no_change_is_refused_in_words(room: Room, body: bytes, status: int) -> None:
    seat = room.seat()
    refused = seat.ask("PUT", "/api/answer/bedroom-drop", body)
    assert refused.status == status
    assert refused.data["words"].endswith(".") or "allowed" in refused.data["words"]
    assert "Traceback" not in refused.data["words"]
    assert stored(seat) == {}


def test_a_question_of_another_sitting_is_not_there(room: Room) -> None:
    seat = room.seat()
    assert seat.save("kitchen-hatch", 1, ROUTE).data["error"] == "no-exercise"
    assert seat.get("/api/question/kitchen-hatch").status == 404


def test_after_the_end_and_its_grace_answers_are_refused_and_logged(room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    room.hands.pass_by(30 * 60 + 4.9)
    assert seat.save("bedroom-drop", 2, OTHER).status == 200
    room.hands.pass_by(0.2)
    refused = seat.save("bedroom-drop", 3, ROUTE)
    assert refused.status == 403
    assert refused.data["error"] == "ended"
    assert stored(seat) == OTHER
    told = room.desk().get("/api/desk/autumn").data["events"][0]
    assert (told["kind"], told["candidate"], told["detail"]["why"]) == ("refused", "C-001", "ended")


def test_a_saved_change_whose_answer_got_lost_is_confirmed_even_after_the_end(room: Room) -> None:
    """The page did not hear that it was saved; it asks again, and nothing is refused."""
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    room.hands.pass_by(3600)
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200
