"""Scripted candidates: each sits a quiz over a connection kept open, and remembers what was confirmed."""

import asyncio
import json
import random
import ssl
import time
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from tests.server.room import NAMES, ROUTE

__all__ = ["Sitter", "Wire"]

PATIENCE = 12.0
"""How long a page waits for an answer [s], as `talk.js` has it."""

PULSE = 5.0
BUSY = 503


class Wire:
    """One connection to a server, opened again whenever it is cut; cookies are kept."""

    def __init__(self, port: int, *, tls: ssl.SSLContext | None = None, host: str = "127.0.0.1") -> None:
        self.port, self.tls, self.cookies, self.token = port, tls, dict[str, str](), ""
        self.host, self.flags = f"{host}:{port}", dict[str, set[str]]()
        self._ends: tuple[asyncio.StreamReader, asyncio.StreamWriter] | None = None

    async def ask(self, method: str, path: str, body: object = None) -> tuple[int, dict[str, Any]]:
        """Send a request and return status and JSON.

        Raises
        ------
        OSError
            If the server was not reached, or the connection was cut.
        """
        try:
            async with asyncio.timeout(PATIENCE):
                return await self._ask(method, path, body)
        except (OSError, EOFError, ValueError) as error:
            self.cut()
            raise ConnectionError("the connection was cut") from error

    def cut(self) -> None:
        """Let go of the connection."""
        if self._ends:
            self._ends[1].transport.abort()
        self._ends = None

    async def end(self) -> None:
        """Close the connection and wait until it is closed."""
        if self._ends:
            self._ends[1].close()
            with suppress(OSError):
                await self._ends[1].wait_closed()
        self._ends = None

    async def _ask(self, method: str, path: str, body: object) -> tuple[int, dict[str, Any]]:
        if self._ends is None:
            self._ends = await asyncio.open_connection("127.0.0.1", self.port, ssl=self.tls)
        reader, writer = self._ends
        writer.write(self._request(method, path, body))
        await writer.drain()
        status, head = self._head((await reader.readuntil(b"\r\n\r\n")).decode("latin-1"))
        raw = await reader.readexactly(int(head.get("content-length", "0")))
        if head.get("connection", "").lower() == "close":
            self.cut()
        return status, json.loads(raw) if "json" in head.get("content-type", "") else {}

    def _request(self, method: str, path: str, body: object) -> bytes:
        raw = b"" if method == "GET" else json.dumps(body or {}).encode()
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        told = [
            f"{method} {path} HTTP/1.1", f"Host: {self.host}", f"Content-Length: {len(raw)}",
            f"Origin: {'https' if self.tls else 'http'}://{self.host}", "Content-Type: application/json",
            f"X-Zonelib-Page: {self.token}", f"Cookie: {cookies}",
        ]  # fmt: skip
        return "\r\n".join([*told, "", ""]).encode() + raw

    def _head(self, text: str) -> tuple[int, dict[str, str]]:
        first, *lines = text.split("\r\n")
        head = {}
        for line in filter(None, lines):
            name, _, value = line.partition(":")
            head[name.lower()] = value.strip()
            if name.lower() == "set-cookie":
                key, _, rest = value.strip().partition("=")
                self.cookies[key], *flags = rest.split(";")
                self.flags[key] = {flag.strip().lower() for flag in flags}
        return int(first.split()[1]), head


@dataclass
class Sitter:
    """One candidate: draws, saves every two seconds, tries again where the server is away, hands in.

    Attributes
    ----------
    confirmed : dict
        What the server said it has stored: (exercise, revision) to the answer.
    took : list of (float, float)
        For each save that came through at once: when it was asked for, and how long it took [s].
    waited : float
        The longest time from a change to its confirmation, over all tries [s].
    """

    number: str
    code: str
    wire: Wire
    every: float = 2.0
    names: tuple[str, ...] = NAMES[:1]
    confirmed: dict[tuple[str, int], str] = field(default_factory=dict)
    took: list[tuple[float, float]] = field(default_factory=list)
    waited: float = 0.0
    tries: int = 0
    troubles: list[str] = field(default_factory=list)
    receipt: str = ""

    def __post_init__(self) -> None:
        self.dice = random.Random(self.number)
        self.revision = 0

    async def enter(self) -> None:
        """Sign in, open the page, start the clock, fetch the questions."""
        await self._surely("POST", "/api/sign-in", {"code": self.code})
        self.wire.token = (await self._surely("GET", "/api/sitting"))["token"]
        await self._surely("POST", "/api/start")
        for name in self.names:
            await self._surely("GET", f"/api/question/{name}")

    async def draw(self, until: float) -> None:
        """Save a change every so often, and tell that the page is there; then hand in."""
        await asyncio.sleep(self.dice.random() * self.every)
        pulse = time.monotonic() + self.dice.random() * PULSE
        while (begun := time.monotonic()) < until:
            await self.save(self.names[self.revision % len(self.names)])
            if begun >= pulse:
                await self._surely("POST", "/api/pulse", {"at": self.names[0]})
                pulse = begun + PULSE
            await asyncio.sleep(max(self.every - (time.monotonic() - begun), 0.0))
        self.receipt = (await self._surely("POST", "/api/hand-in"))["receipt"]
        await self.wire.end()

    async def save(self, name: str) -> None:
        """Change an answer and have it confirmed, however often that must be tried."""
        self.revision += 1
        answer = {**ROUTE, "points": [[700, 2400], [700, 450 + self.dice.randint(0, 900)], [1250, 450]]}
        sent, begun, tries = {"revision": self.revision, "answer": answer}, time.monotonic(), self.tries
        await self._surely("PUT", f"/api/answer/{name}", sent)
        done = time.monotonic()
        self.confirmed[name, self.revision] = json.dumps(answer, sort_keys=True, separators=(",", ":"))
        self.waited = max(self.waited, done - begun)
        if self.tries == tries:
            self.took.append((begun, done - begun))

    async def _surely(self, method: str, path: str, body: object = None) -> dict[str, Any]:
        while True:
            try:
                status, data = await self.wire.ask(method, path, body)
            except OSError:
                status, data = BUSY, {}
            if status < 400:
                return data
            if status < 500:
                self.troubles.append(f"{self.number}: {method} {path}: {data}")
                return {"token": "", "receipt": ""}
            self.tries += 1
            await asyncio.sleep(0.75 + self.dice.random() / 2)
