"""A room for tests: a server in a thread on 127.0.0.1, a clock the test sets, clients that talk to it."""

import asyncio
import json
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

from tornado.web import decode_signed_value

from zonelib.desk.server.clock import Clock
from zonelib.desk.server.making import Candidate, Choice, Mode, Plan, make_sitting
from zonelib.desk.server.running import open_sitting
from zonelib.desk.server.seats import Session, session_of
from zonelib.desk.server.store import Store, open_store
from zonelib.desk.server.web.app import Server, serving
from zonelib.desk.server.web.base import SEAT_COOKIE
from zonelib.exercise import Bundle, bank_path, freeze, read_exercise

START = 1_795_600_000.0
NAMES = ("bedroom-drop", "bedroom-zones")
ROUTE = {
    "points": [[700, 2400], [700, 450], [1250, 450]],
    "depth": [15, 15],
    "protection": ["none", "none"],
    "rcd": {"ma": 30, "at": "origin", "delayed": False},
}
_BUNDLES: dict[str, Bundle] = {}


def bundle(name: str) -> Bundle:
    """Return an exercise of the bank, frozen once."""
    if name not in _BUNDLES:
        _BUNDLES[name] = freeze(read_exercise(bank_path(name)))
    return _BUNDLES[name]


class Hands:
    """A clock's two sources, moved by the test: the shared date, and the steady count."""

    def __init__(self) -> None:
        self.date, self.count = START, 0.0

    def pass_by(self, seconds: float) -> None:
        self.date += seconds
        self.count += seconds


@dataclass
class Reply:
    status: int
    data: dict[str, Any]
    raw: bytes
    headers: dict[str, str]


@dataclass
class Client:
    """A browser without a page: cookies, the page's token, and every byte that came."""

    port: int
    cookies: dict[str, str] = field(default_factory=dict)
    token: str = ""
    seen: list[bytes] = field(default_factory=list)
    origin: str | None = None

    def ask(self, method: str, path: str, body: object = None, **headers: str) -> Reply:
        """Send a request; a header of the value "-" is left out."""
        raw = body if isinstance(body, bytes) else b"" if body is None else json.dumps(body).encode()
        told = {"Origin": self.origin or f"http://127.0.0.1:{self.port}", "Content-Type": "application/json"}
        told |= {
            "X-Zonelib-Page": self.token,
            "Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items()),
        }
        told |= {name.replace("_", "-"): value for name, value in headers.items()}
        connection = HTTPConnection("127.0.0.1", self.port, timeout=20)
        connection.request(method, path, raw, {k: v for k, v in told.items() if v != "-"})
        answer = connection.getresponse()
        content = answer.read()
        for name, value in answer.getheaders():
            if name.lower() == "set-cookie":
                key, _, rest = value.partition("=")
                self.cookies[key] = rest.partition(";")[0]
        connection.close()
        head = dict(answer.getheaders())
        self.seen.append(content + json.dumps(head).encode())
        is_json = "json" in head.get("Content-Type", "")
        return Reply(answer.status, json.loads(content) if is_json else {}, content, head)

    def get(self, path: str) -> Reply:
        return self.ask("GET", path)

    def post(self, path: str, **data: object) -> Reply:
        return self.ask("POST", path, data)

    def save(self, exercise: str, revision: int, answer: object) -> Reply:
        return self.ask("PUT", f"/api/answer/{exercise}", {"revision": revision, "answer": answer})

    def enter(self, code: str) -> "Client":
        """Sign in and open the page."""
        found = self.post("/api/sign-in", code=code)
        assert found.status == 200, found.data
        if found.data["state"] == "in":
            self.token = self.get("/api/sitting").data["token"]
        return self


@dataclass
class Room:
    """A server with one sitting."""

    store: Store
    server: Server
    port: int
    hands: Hands
    codes: dict[str, str]
    sitting: str

    def client(self) -> Client:
        return Client(self.port)

    def seat(self, number: str = "C-001", *, start: bool = True) -> Client:
        """Return a client that sits, its clock running."""
        client = self.client().enter(self.codes[number])
        if start:
            assert client.post("/api/start").status == 200
        return client

    def session(self, number: str) -> Session:
        """Return the session of a candidate who sits, as the cookie has it."""
        secret, signed = self.server.settings["cookie_secret"], self.seat(number).cookies[SEAT_COOKIE]
        found = session_of((decode_signed_value(secret, SEAT_COOKIE, signed) or b"").decode())
        assert found
        return found

    def desk(self) -> Client:
        """Return the invigilator's client."""
        from zonelib.desk.server.codes import desk_key

        client = self.client()
        assert client.post("/api/desk/sign-in", key=desk_key(self.store.secret)).status == 200
        client.token = client.get("/api/desk").data["token"]
        return client

    def act(
        self, act: str, *, seat: str | None = None, minutes: float = 0.0, reason: str = "a test"
    ) -> Reply:
        """Do something as the invigilator."""
        told = {"act": act, "minutes": minutes, "reason": reason}
        return self.desk().post(f"/api/desk/{self.sitting}", seat=self.id_of(seat) if seat else None, **told)

    def id_of(self, number: str) -> str:
        rows = self.desk().get(f"/api/desk/{self.sitting}").data["seats"]
        return str(next(one["id"] for one in rows if one["candidate"] == number))


def plan(mode: Mode = "quiz", *, names: Sequence[str] = NAMES, seats: int = 3, minutes: float = 30) -> Plan:
    """Return a sitting of exercises of the bank; the second candidate has 25 % more time."""
    seconds = minutes * 60 if mode == "quiz" else None
    extra = 0.25 * (seconds or 0.0)
    people = [Candidate(f"C-{n:03}", extra if n == 2 else 0.0) for n in range(1, seats + 1)]
    return Plan(
        id="autumn",
        title="Autumn",
        mode=mode,
        seconds=seconds,
        exercises=[[Choice(bundle(name))] for name in names],
        candidates=people,
    )


@contextmanager
def served(store: Store, hands: Hands, *, floor: float = 0.0) -> Iterator[tuple[Server, int]]:
    """Run a server in a thread, for as long as the block."""
    clock = Clock(lambda: hands.date, floor=floor, count=lambda: hands.count)
    server, ready, ports = Server(store, clock=clock), threading.Event(), list[int]()
    loop = asyncio.new_event_loop()

    def bound(port: int) -> None:
        ports.append(port)
        ready.set()

    async def run() -> None:
        await serving(server, host="127.0.0.1", port=0, proxied=False, ready=bound)

    task = loop.create_task(run())

    def live() -> None:
        asyncio.set_event_loop(loop)
        try:
            loop.run_until_complete(task)
        except asyncio.CancelledError:
            loop.run_until_complete(loop.shutdown_asyncgens())
        finally:
            loop.close()

    thread = threading.Thread(target=live)
    thread.start()
    assert ready.wait(10)
    try:
        yield server, ports[0]
    finally:
        loop.call_soon_threadsafe(task.cancel)
        thread.join(10)


def laid_out(folder: Path, made: Plan, *, database: str | None = None) -> dict[str, str]:
    """Make a sitting and open it; return its codes."""
    store = open_store(folder, database)
    with store.writing() as connection:
        codes = make_sitting(connection, made, secret=store.secret, now=START)
        open_sitting(connection, made.id, now=START, actor="tutor")
    store.close()
    return codes


@contextmanager
def opened_room(
    folder: Path, made: Plan, *, database: str | None = None, codes: dict[str, str] | None = None
) -> Iterator[Room]:
    """Make a sitting, open it and serve it; with `codes` it is there already."""
    codes = codes or laid_out(folder, made, database=database)
    hands, store = Hands(), open_store(folder, database)
    try:
        with served(store, hands) as (server, port):
            yield Room(store, server, port, hands, codes, made.id)
    finally:
        store.close()


def wait_for(check: Any, *, patience: float = 5.0) -> None:
    """Wait until something holds."""
    until = time.monotonic() + patience
    while not check():
        assert time.monotonic() < until, "it did not come to hold in time"
        time.sleep(0.02)
