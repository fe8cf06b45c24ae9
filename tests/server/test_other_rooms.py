"""What else a sitting sends: the pages' files, the invigilator's page, nothing of others' rooms."""

import json
import re
from collections.abc import Iterator

import pytest

from tests.server.room import Client, Room, opened_room
from tests.server.test_given_away import JUDGING
from zonelib.desk.server.making import Candidate, Choice, Plan
from zonelib.desk.server.web.files import MADE, STATIC
from zonelib.exercise import Bundle, bank_path, freeze, read_exercise

SEEDS = ("room-5f1d", "room-8c2e")
SHORTEST = ("2389", "2472")
SOCKETS = (1250, 1333)


@pytest.fixture(scope="module")
def rooms(tmp_path_factory: pytest.TempPathFactory) -> list[Bundle]:
    """Return an exercise in two rooms, whose socket and shortest run differ."""
    text, made = bank_path("bedroom-drop").read_text(encoding="utf-8"), []
    for shortest, socket in zip(SHORTEST, SOCKETS, strict=True):
        path = tmp_path_factory.mktemp("rooms") / "bedroom-drop.toml"
        path.write_text(text.replace("1250", str(socket)).replace(SHORTEST[0], shortest), encoding="utf-8")
        made.append(freeze(read_exercise(path)))
    return made


@pytest.fixture(scope="module")
def sat(tmp_path_factory: pytest.TempPathFactory, rooms: list[Bundle]) -> Iterator[tuple[Room, list[Client]]]:
    """Sit a quiz in which candidates have different rooms; the invigilator looks on."""
    choices = [Choice(one, seed) for one, seed in zip(rooms, SEEDS, strict=True)]
    people = [Candidate(f"C-{n:03}") for n in range(1, 9)]
    quiz = Plan(
        id="autumn", title="Autumn", mode="quiz", seconds=1800.0, exercises=[choices], candidates=people
    )
    with opened_room(tmp_path_factory.mktemp("two-rooms"), quiz) as room:
        clients = [sit(room, number) for number in room.codes]
        desk = room.desk()
        desk.get("/desk")
        desk.get("/api/desk/autumn")
        yield room, [*clients, desk]


def sit(room: Room, number: str) -> Client:
    client = room.seat(number)
    for path in ("/", "/sit", "/api/sitting", "/api/question/bedroom-drop", "/api/try-out", "/api/results"):
        client.get(path)
    route = {"points": [[700, 2400], [700, 450]], "depth": [15], "protection": ["none"], "rcd": None}
    client.save("bedroom-drop", 1, {**route, "rcd": {"ma": 30, "at": "origin", "delayed": False}})
    client.post("/api/hand-in")
    return client


def traffic(client: Client) -> str:
    return "\n".join(one.decode("utf-8", "replace") for one in client.seen)


def test_both_rooms_are_sat(sat: tuple[Room, list[Client]]) -> None:
    assert {own(client) for client in sat[1][:-1]} == set(SOCKETS)


def own(client: Client) -> int:
    found = traffic(client)
    return next(socket for socket in SOCKETS if re.search(rf"\b{socket}\b", found))


def test_a_candidate_is_sent_nothing_of_the_other_room(sat: tuple[Room, list[Client]]) -> None:
    for client in sat[1][:-1]:
        (other,) = set(SOCKETS) - {own(client)}
        assert not re.search(rf"\b{other}\b", traffic(client))


def test_no_seed_no_hash_no_shortest_run_is_sent_to_a_candidate(
    sat: tuple[Room, list[Client]], rooms: list[Bundle]
) -> None:
    telling = [*SEEDS, *(one.hash for one in rooms), *(rf"\b{length}\b" for length in SHORTEST)]
    for client in sat[1][:-1]:
        found = traffic(client)
        assert [
            one for one in [*telling, '"shortest"', '"variant"', '"variants"'] if re.search(one, found)
        ] == []


def test_the_invigilators_page_is_sent_no_marks(sat: tuple[Room, list[Client]]) -> None:
    found = traffic(sat[1][-1])
    assert "bedroom-drop" not in json.dumps(sat[1][-1].get("/api/desk/autumn").data["seats"])
    assert [word for word in (*JUDGING, *SEEDS) if word in found] == []


def test_the_pages_files_hold_no_exercise(sat: tuple[Room, list[Client]]) -> None:
    client = Client(sat[0].port)
    names = {*MADE, *(path.name for path in STATIC.iterdir() if path.suffix in (".js", ".css", ".svg"))}
    for name in names:
        assert client.get(f"/static/{name}").status == 200
    exercise, found = read_exercise(bank_path("bedroom-drop")), traffic(client)
    hints = [exercise.hints.fact, exercise.hints.pointer, exercise.hints.step] if exercise.hints else []
    told = [
        exercise.title,
        *hints,
        *(one["words"] for one in exercise.wrong),
        json.dumps(exercise.model["points"]),
    ]
    assert [words for words in told if words in found] == []
    assert len(client.seen) > 10


def test_pages_talk_by_plain_requests_alone(sat: tuple[Room, list[Client]]) -> None:
    """What is looked through above is all there is: no socket is kept open, and no stream of events."""
    told = {"Upgrade": "websocket", "Connection": "Upgrade", "Sec_WebSocket_Version": "13"}
    client = sat[1][0]
    for path in ("/sit", "/api/sitting", "/api/pulse"):
        assert (
            client.ask("GET", path, None, Sec_WebSocket_Key="MDEyMzQ1Njc4OWFiY2RlZg==", **told).status != 101
        )
    scripts = "".join(path.read_text(encoding="utf-8") for path in STATIC.glob("*.js"))
    assert not re.search(r"WebSocket|EventSource|sendBeacon", scripts)
