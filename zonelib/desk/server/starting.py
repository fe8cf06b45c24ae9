"""Start a server on a course: database, clock, and what there is to tell."""

import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import sqlalchemy as sa

from zonelib.desk.server.choosing import released_choices
from zonelib.desk.server.clock import Clock
from zonelib.desk.server.codes import desk_key
from zonelib.desk.server.living import last_seen
from zonelib.desk.server.practice import renew_practice
from zonelib.desk.server.store import Store, open_store
from zonelib.desk.server.tables import sittings
from zonelib.desk.server.web.app import Server, serving
from zonelib.site.faults import FileFault

__all__ = ["Started", "start_server"]

BEHIND = 2.0


@dataclass(frozen=True)
class Started:
    """A server that is ready to serve."""

    store: Store
    server: Server

    async def serve(self, *, host: str, port: int, proxied: bool, ready: Callable[[int], None]) -> None:
        """Serve until cancelled."""
        try:
            await serving(self.server, host=host, port=port, proxied=proxied, ready=ready)
        finally:
            self.store.close()

    def told(self) -> Iterator[str]:
        """Return what to print when it starts."""
        yield f"Invigilator's key: {desk_key(self.store.secret)}"
        with self.store.reading() as connection:
            for one in connection.execute(sa.select(sittings).order_by(sittings.c.made_at)):
                yield f"- {one.id} ({one.mode}, {one.state}): {one.title}"
        if self.server.clock.behind > BEHIND:
            yield f"This machine's date is {self.server.clock.behind:.0f} s behind that of the last run."


def _clock_of(store: Store) -> Clock:
    """Return the clock of all servers on a database; it does not start before any of them last lived."""
    with store.reading() as connection:
        floor = last_seen(connection)

    def shared() -> float:
        found = store.time()
        return time.time() if found is None else found

    return Clock(shared, floor=floor)


def start_server(course: Path, database: str | None = None) -> Started:
    """Open the database of a course and return its server.

    Raises
    ------
    FileFault
        If the database cannot be used.
    """
    store = open_store(course, database)
    with suppress(FileFault):  # a course without released exercises has no practice
        exercises = released_choices(course)
        with store.writing() as connection:
            renew_practice(connection, exercises, secret=store.secret, now=time.time())
    return Started(store, Server(store, clock=_clock_of(store)))
