"""Hand the work of a run to a Dask cluster whose workers see the same folders."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import TYPE_CHECKING, Any

from zonelib.desk.kept import engine_hash
from zonelib.desk.work import Done, Settings, mark_group
from zonelib.site.faults import Fault, FileFault

if TYPE_CHECKING:
    from distributed import Client

    from zonelib.desk.groups import Group
    from zonelib.desk.spread import Spread

__all__ = ["by_cluster"]

AHEAD = 4
"""Trainees per worker's thread that are handed out before the first is done."""

PATIENCE = 10
"""So long an address may take to answer [s]."""


def by_cluster(address: str) -> Spread:
    """Return a way to mark by the workers of a Dask scheduler.

    Only so many trainees are handed out at a time as keep the workers busy, and what is done stays on disk.
    A worker that dies costs time alone: its trainees are marked by another.

    Parameters
    ----------
    address : str
        Of the scheduler, such as ``tcp://10.0.0.5:8786``.

    Raises
    ------
    FileFault
        If Dask is not installed, nothing answers at the address, or a worker holds another zonelib.
    """

    def spread(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
        with _client(address) as client:
            threads = sum(_same_engine(client, address).values())
            waiting = iter(groups)
            running = deque(_hand_out(client, islice(waiting, AHEAD * threads), settings))
            while running:
                yield _done(*running.popleft())
                running.extend(_hand_out(client, islice(waiting, 1), settings))

    return spread


def _client(address: str) -> Client:
    try:
        from distributed import Client
    except ImportError:
        how = 'pip install "zonelib[cluster]"'
        raise FileFault("--scheduler", [Fault("the library distributed", "nothing", how)]) from None
    try:
        return Client(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError):
        allowed = "the address that dask scheduler prints, such as tcp://10.0.0.5:8786"
        raise FileFault("--scheduler", [Fault(address, "nothing that answers", allowed)]) from None


def _same_engine(client: Client, address: str) -> dict[str, int]:
    """Return the threads of each worker; all must mark by the very code that is used here."""
    threads = dict(client.nthreads())
    if not threads:
        raise FileFault("--scheduler", [Fault(address, "no worker", "one or more started with dask worker")])
    others = sorted(name for name, one in client.run(engine_hash).items() if one != engine_hash())
    if others:
        found = f"another zonelib on {', '.join(others)}"
        raise FileFault(
            "--scheduler", [Fault(address, found, "the same one, by version and file, everywhere")]
        )
    return threads


def _hand_out(client: Client, groups: Iterable[Group], settings: Settings) -> Iterator[tuple[str, Any]]:
    for group in groups:
        yield group.trainee, client.submit(mark_group, group, settings, pure=False)


def _done(trainee: str, future: Any) -> Done:
    """Wait for one trainee's work; where it kills workers that is told, and all other marks are kept."""
    from distributed import KilledWorker

    try:
        done: Done = future.result()
    except KilledWorker:
        allowed = "more memory for the workers; what is marked is kept, and the next run goes on from there"
        raise FileFault("--scheduler", [Fault(trainee, "workers that died of this work", allowed)]) from None
    return done
