"""Two servers behind Debian's nginx on one PostgreSQL: a candidate goes from one to the other and back."""

import asyncio
import time
from collections.abc import Iterator
from http.client import HTTPConnection

import pytest

from tests.server.college import College, college_in
from tests.server.processes import run_apart
from tests.server.room import plan
from tests.server.sitters import Sitter, Wire
from tests.server.tally import lost_or_doubled

pytestmark = pytest.mark.notebook


@pytest.fixture(scope="module")
def college(tmp_path_factory: pytest.TempPathFactory) -> Iterator[College]:
    with college_in(tmp_path_factory.mktemp("college"), plan(seats=2)) as opened:
        yield opened


async def left_at(sitter: Sitter, port: int) -> float:
    """Return the seat's time left as one of the servers tells it, when it was asked [s]."""
    direct = Wire(port)
    direct.cookies = dict(sitter.wire.cookies)
    status, data = await direct.ask("GET", "/api/sitting")
    assert status == 200, data
    await direct.end()
    return float(data["pulse"]["left"])


def test_a_candidate_goes_from_server_to_server_and_nothing_is_lost(college: College) -> None:
    async def sit() -> Sitter:
        sitter, (one, two) = college.sitter("C-001"), college.servers
        await sitter.enter()
        begun = time.monotonic()
        for _ in range(6):
            await sitter.save("bedroom-drop")
        both = [await left_at(sitter, server.port) for server in (one, two)]
        assert both[0] == pytest.approx(both[1], abs=2)
        for gone in (one, two):
            gone.kill()
            for _ in range(6):
                await sitter.save("bedroom-drop")
            await asyncio.to_thread(gone.start)
        left, passed = await left_at(sitter, two.port), time.monotonic() - begun
        assert 30 * 60 - left == pytest.approx(passed, abs=3)
        await sitter.draw(0.0)
        return sitter

    sitter = run_apart(sit())
    assert len(sitter.confirmed) == 18
    assert sitter.receipt
    told = college.sitter("C-002")
    assert lost_or_doubled(college.folder, college.database, [sitter, told]) == []


def test_plain_http_is_sent_on_to_https(college: College) -> None:
    connection = HTTPConnection("127.0.0.1", college.front.plain, timeout=20)
    connection.request("GET", "/sit")
    answer = connection.getresponse()
    assert (answer.status, answer.getheader("Location")) == (301, "https://127.0.0.1/sit")
    connection.close()


def test_behind_https_cookies_never_travel_in_the_open(college: College) -> None:
    async def enter() -> Wire:
        sitter = college.sitter("C-002")
        await sitter.enter()
        await sitter.wire.end()
        return sitter.wire

    wire = run_apart(enter())
    assert {"secure", "httponly", "samesite=strict"} <= wire.flags["zonelib_seat"]
