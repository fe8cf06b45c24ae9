"""Not one byte before the release gives an answer away: all traffic of a sitting is looked through."""

import json
from collections.abc import Iterator
from typing import Any

import pytest

from tests.server.room import Client, Room, bundle, opened_room, plan
from zonelib.exercise import bank_path, read_exercise
from zonelib.sheet.kinds import pad_for

NAMES = (
    "bedroom-drop", "bedroom-zones", "hall-pictures", "bathroom-joist", "study-inspection", "study-how-deep",
    "landing-which-screws", "office-which-clauses", "store-given-run", "kitchen-hatch",
)  # fmt: skip
JUDGING = (
    "verdict",
    "gained",
    "criteria",
    "tolerance",
    '"seed"',
    '"met"',
    '"summary"',
    '"passed"',
    '"model"',
)
"""Names of things that only marking knows; the scripts that show them later are looked through apart."""


def leaves(data: Any) -> Iterator[str]:
    """Yield every list or table of a model answer that says something, as JSON without blanks."""
    parts = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    for part in parts:
        if isinstance(part, dict | list) and len(json.dumps(part)) > 8:
            yield json.dumps(part, separators=(",", ":"))
        yield from leaves(part)


@pytest.fixture(scope="module")
def sat(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Room, Client]]:
    """Sit a quiz from the first page to the receipt, with answers that lose marks."""
    folder = tmp_path_factory.mktemp("given-away")
    with opened_room(folder, plan(names=NAMES, seats=1)) as room:
        client = room.client()
        for page in ("/", "/sit"):
            client.get(page)
        client.enter(room.codes["C-001"])
        client.get("/api/try-out")
        client.post("/api/start")
        for name in NAMES:
            client.get(f"/api/question/{name}")
            client.post(f"/api/flag/{name}", flagged=True)
            answered(client, name)
            client.post(f"/api/check/{name}")
            client.post("/api/pulse", at=name)
        client.get("/api/sitting")
        client.get("/api/results")
        client.post("/api/hand-in")
        yield room, client


def answered(client: Client, name: str) -> None:
    wrong = dict(read_exercise(bank_path(name)).wrong[0]["answer"])
    asked = bundle(name)
    read = asked.kind.answer.model_validate(wrong).model_dump(mode="json", by_alias=True)
    answer = pad_for(asked).held(asked, read)
    for revision, change in enumerate((answer, {"nonsense": 1}, answer), start=1):
        client.save(name, revision, change)


def traffic(client: Client) -> str:
    """Return everything that came, as text, without the pages' own scripts and styles."""
    return "\n".join(one.decode("utf-8", "replace") for one in client.seen)


def test_every_answer_was_taken(sat: tuple[Room, Client]) -> None:
    _, client = sat
    questions = client.get("/api/sitting").data["questions"]
    assert [one["revision"] for one in questions if one["answered"]] == [3] * len(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_no_part_of_a_model_answer_is_sent(sat: tuple[Room, Client], name: str) -> None:
    room, client = sat
    exercise = read_exercise(bank_path(name))
    given = json.dumps(room_view(room, name), separators=(",", ":")) if name == "store-given-run" else ""
    own = [json.dumps(one["answer"], separators=(",", ":")) for one in exercise.wrong[:1]]
    looked_for = [part for part in leaves(exercise.model) if part not in own[0] and part not in given]
    found = traffic(client)
    assert [part for part in looked_for if part in found] == []


def room_view(room: Room, name: str) -> Any:
    """Return the case of an exercise: what is drawn and given may be part of the model answer too."""
    del room
    return bundle(name).exercise.case


@pytest.mark.parametrize("name", NAMES)
def test_nothing_frozen_for_marking_is_sent(sat: tuple[Room, Client], name: str) -> None:
    _, client = sat
    facts = {
        key: value for key, value in bundle(name).data.items() if key not in ("exercise", "pack", "format")
    }
    found = traffic(client)
    telling = [f'"{key}":' for key in facts] + [f'"{key}": ' for key in facts]
    assert [part for part in telling if part in found] == []


@pytest.mark.parametrize("word", JUDGING)
def test_no_word_of_marking_is_sent(sat: tuple[Room, Client], word: str) -> None:
    assert word not in traffic(sat[1])


@pytest.mark.parametrize("name", NAMES)
def test_hints_and_reasons_are_not_sent(sat: tuple[Room, Client], name: str) -> None:
    _, client = sat
    exercise, found = read_exercise(bank_path(name)), traffic(client)
    hints = [exercise.hints.fact, exercise.hints.pointer, exercise.hints.step] if exercise.hints else []
    wrong = [one["words"] for one in exercise.wrong]
    assert [words for words in hints + wrong if json.dumps(words)[1:-1] in found] == []


def test_the_search_finds_what_is_there(sat: tuple[Room, Client]) -> None:
    """The same looking finds all of it once results are released: it is able to see."""
    room, client = sat
    room.act("close")
    room.act("release")
    before = traffic(client)
    client.get("/api/results")
    after = traffic(client).removeprefix(before)
    assert "Gained" in after
    assert "What marks are given for" in after
    assert "What marks are given for" not in before
