"""A room under load: ``python -m tests.server.load [SEATS] [SECONDS] [--database URL] [--kills N]``.

Every seat saves a change each 2 s. Now and then the server is killed, as a power cut would, and started
again. Afterwards every answer that was confirmed must be stored, the newest of each question, none twice.
"""

import argparse
import asyncio
import os
import sys
import tempfile
import time
from collections.abc import Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

from tests.server.processes import Process, cluster, free_port, run_apart
from tests.server.room import NAMES, laid_out, plan
from tests.server.sitters import Sitter, Wire
from tests.server.tally import lost_or_doubled

__all__ = ["Figures", "load"]

SETTLING = 3.0
"""For how long after a start the room's stored-up changes come in at once [s]."""


WELL = "every confirmed answer is stored, none twice; the log holds"


@dataclass(frozen=True)
class Figures:
    """What was measured; times in ms, memory in MiB, processors as shares of one."""

    seats: int
    seconds: float
    saves: int
    p50: float
    p99: float
    p99_all: float
    longest: float
    memory: float
    cpu: float
    lag: float
    kills: int
    faults: tuple[str, ...]

    def __str__(self) -> str:
        """Return the figures as lines."""
        after = f"{self.p99_all:.1f} ms with the {SETTLING:.0f} s after each start"
        saves = f"{self.saves} saves confirmed, {self.kills} times killed"
        lines = [
            f"{self.seats} seats, {self.seconds:.0f} s, {saves}",
            f"a save: p50 {self.p50:.1f} ms, p99 {self.p99:.1f} ms ({after})",
            f"longest from change to confirmation, over a kill: {self.longest:.1f} s",
            f"server: {self.memory:.0f} MiB at most, {100 * self.cpu:.0f} % of one processor",
            f"the measuring itself was woken late by p99 {self.lag:.1f} ms",
            f"load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors",
        ]
        return "\n".join([*lines, *(self.faults or [WELL])])


def load(
    seats: int, seconds: float, *, kills: int = 3, every: float = 2.0, database: str | None = None
) -> Figures:
    """Sit a quiz with so many seats for so long; kill the server so often."""
    with tempfile.TemporaryDirectory(prefix="zl-load-") as name:
        folder = Path(name)
        codes = laid_out(folder, plan(names=NAMES[:1], seats=seats), database=database)
        more = ("--database", database) if database else ()
        server = Process(folder, free_port(), *more).start()
        try:
            sitters = [Sitter(one, code, Wire(server.port), every=every) for one, code in codes.items()]
            measured = run_apart(_sit(server, sitters, seconds, kills))
        finally:
            server.kill()
        return _figures(server, sitters, measured, lost_or_doubled(folder, database, sitters))


@dataclass
class _Measured:
    seconds: float
    kills: int
    memory: float = 0.0
    starts: tuple[float, ...] = ()
    lags: tuple[float, ...] = ()


async def _sit(server: Process, sitters: Sequence[Sitter], seconds: float, kills: int) -> _Measured:
    doors = asyncio.Semaphore(10)

    async def enter(one: Sitter) -> None:
        async with doors:
            await one.enter()

    await asyncio.gather(*map(enter, sitters))
    server.rest()
    told, begun = _Measured(seconds, kills), time.monotonic()
    lagging = asyncio.create_task(_lag(told))
    drawing = [asyncio.create_task(one.draw(begun + seconds)) for one in sitters]
    for number in range(1, kills + 1):
        await asyncio.sleep(max(begun + seconds * number / (kills + 1) - time.monotonic(), 0.0))
        told.memory = max(told.memory, server.memory)
        server.kill()
        await asyncio.to_thread(server.start)
        told.starts += (time.monotonic(),)
    await asyncio.gather(*drawing)
    told.seconds, told.memory = time.monotonic() - begun, max(told.memory, server.memory)
    lagging.cancel()
    return told


async def _lag(told: _Measured) -> None:
    """Note how late this process itself is woken, so that its own slowness is seen."""
    while True:
        begun = time.monotonic()
        await asyncio.sleep(0.05)
        told.lags += (time.monotonic() - begun - 0.05,)


def _figures(server: Process, sitters: Sequence[Sitter], told: _Measured, faults: Sequence[str]) -> Figures:
    took = [one for each in sitters for one in each.took]
    calm = [
        long for at, long in took if not any(start - 0.5 <= at < start + SETTLING for start in told.starts)
    ]
    every = [long for _, long in took]
    return Figures(
        seats=len(sitters),
        seconds=told.seconds,
        saves=sum(len(one.confirmed) for one in sitters),
        p50=1000 * _share(calm, 0.5),
        p99=1000 * _share(calm, 0.99),
        p99_all=1000 * _share(every, 0.99),
        longest=max(one.waited for one in sitters),
        memory=told.memory,
        cpu=server.cpu / told.seconds,
        lag=1000 * _share(told.lags, 0.99),
        kills=told.kills,
        faults=tuple(faults),
    )


def _share(values: Sequence[float], share: float) -> float:
    found = sorted(values)
    return found[min(int(len(found) * share), len(found) - 1)] if found else 0.0


def main() -> int:
    """Run it from the command line; exit with 1 where anything was lost or doubled."""
    parser = argparse.ArgumentParser(prog="python -m tests.server.load", description=__doc__)
    parser.add_argument("seats", nargs="?", type=int, default=200)
    parser.add_argument("seconds", nargs="?", type=float, default=60.0)
    parser.add_argument("--kills", type=int, default=3)
    parser.add_argument("--database", help="an address; `postgresql` alone starts one for the run")
    asked = parser.parse_args()
    own = asked.database == "postgresql"
    with cluster() if own else nullcontext(asked.database) as database:
        found = load(asked.seats, asked.seconds, kills=asked.kills, database=database)
    sys.stdout.write(f"{found}\n")
    return 1 if found.faults else 0


if __name__ == "__main__":
    sys.exit(main())
