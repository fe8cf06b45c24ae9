"""Results: each different answer is marked once, however many look, and before they look where it can be."""

import json
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa

from tests.server.room import NAMES, ROUTE, START, Room, opened_room, plan, wait_for
from zonelib.desk.server import results as under_test
from zonelib.desk.server.making import make_sitting
from zonelib.desk.server.results import answered, result_of, unmarked
from zonelib.desk.server.store import Store, open_store
from zonelib.desk.server.tables import SCHEMA, answers, results, seats, settings
from zonelib.desk.server.web import ahead
from zonelib.exercise.marking import mark

DIFFERENT = 5


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that grows with each marking."""
    calls = list[str]()

    def counted(bundle: Any, record: Any) -> Any:
        calls.append(record.exercise)
        return mark(bundle, record)

    monkeypatch.setattr(under_test, "mark", counted)
    return calls


def route(y: int) -> dict[str, object]:
    return {**ROUTE, "points": [[700, 2400], [700, y], [1250, y]]}


def class_of(store: Store, many: int) -> list[str]:
    """Make a class in which several gave the same answer, and some none; return the ids of the seats."""
    with store.writing() as connection:
        make_sitting(connection, plan(names=NAMES[:1], seats=many), secret=store.secret, now=START)
        ids = list(connection.execute(sa.select(seats.c.id)).scalars())
        for at, seat in enumerate(ids):
            if at % DIFFERENT:
                told = {
                    "revision": 1 + at,
                    "saved_at": START + at,
                    "body": json.dumps(route(450 + at % DIFFERENT)),
                }
                connection.execute(answers.insert().values(seat=seat, exercise=NAMES[0], **told))
    return ids


def test_two_hundred_views_mark_each_different_answer_once(tmp_path: Path, marked: list[str]) -> None:
    store = open_store(tmp_path)
    with store.reading() as connection:
        seen = [answered(connection, seat=seat) for seat in class_of(store, 200)]
    told = [[result_of(store, one) for one in each] for each in seen]
    assert len(marked) == DIFFERENT
    assert [each[0]["status"] for each in told[: DIFFERENT + 1]] == ["empty", *["marked"] * 4, "empty"]
    assert told[1] == told[1 + DIFFERENT]
    with store.reading() as connection:
        assert unmarked(connection, "autumn") == []
    store.close()


def rows(room: Room) -> int:
    with room.store.reading() as connection:
        return int(connection.execute(sa.select(sa.func.count()).select_from(results)).scalar_one())


def test_once_closed_all_is_marked_before_anyone_looks(
    tmp_path: Path, marked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ahead, "EVERY", 0.02)
    with opened_room(tmp_path, plan()) as room:
        one, two = room.seat("C-001"), room.seat("C-002")
        for seat in (one, two):
            seat.save("bedroom-drop", 1, ROUTE)
        assert marked == []
        room.act("close")
        wait_for(lambda: rows(room) == 3)  # one route, and no answer to either question
        room.act("release")
        found = [seat.get("/api/results").data["results"] for seat in (one, two)]
    assert len(marked) == 3
    scores = [{each["exercise"]: each["score"] for each in told} for told in found]
    assert scores[0] == scores[1]
    assert scores[0]["bedroom-drop"] > scores[0]["bedroom-zones"] == 0


def test_a_changed_answer_is_marked_anew(tmp_path: Path, marked: list[str]) -> None:
    with opened_room(tmp_path, plan("homework", names=NAMES[:1])) as room:
        seat = room.seat()
        room.act("release")
        first = seat.get("/api/results").data["results"][0]
        seat.save("bedroom-drop", 1, ROUTE)
        again = [seat.get("/api/results").data["results"][0] for _ in range(2)]
    assert first["status"] == "empty"
    assert [one["status"] for one in again] == ["marked", "marked"]
    assert marked.count("bedroom-drop") == 2


def test_a_database_of_the_version_before_is_brought_up_to_date(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    (seat, *_) = class_of(store, DIFFERENT)
    with store.writing() as connection:
        connection.execute(settings.update().where(settings.c.name == "schema").values(value="1"))
        results.drop(connection)
        connection.execute(
            sa.text("CREATE TABLE results (seat TEXT, exercise TEXT, revision INTEGER, shown TEXT)")
        )
    store.close()
    again = open_store(tmp_path)
    with again.reading() as connection:
        version = connection.execute(
            sa.select(settings.c.value).where(settings.c.name == "schema")
        ).scalar_one()
        (asked,) = answered(connection, seat=seat)
    assert version == str(SCHEMA)
    assert result_of(again, asked) == result_of(again, asked)
    again.close()
