"""Marking ahead: once a sitting is closed, its answers are marked one by one, before anyone looks."""

import asyncio
import logging
from typing import TYPE_CHECKING

from sqlalchemy.exc import SQLAlchemyError

from zonelib.desk.server.results import Answered, Ended, ended, result_of, unmarked
from zonelib.desk.server.web.beating import EVERY

if TYPE_CHECKING:
    from zonelib.desk.server.web.app import Server

__all__ = ["marking_ahead"]

LOG = logging.getLogger("zonelib.server")


async def marking_ahead(server: "Server") -> None:
    """Mark until cancelled. Who looks at results meanwhile waits for one answer at most."""
    loop, done = asyncio.get_running_loop(), set[Ended]()
    while True:
        try:
            for one in await loop.run_in_executor(server.hands, _waiting, server, done):
                await loop.run_in_executor(server.marker, result_of, server.store, one)
        except SQLAlchemyError as error:
            LOG.warning("Marking ahead will be tried again: %s", type(error).__name__)
        await asyncio.sleep(EVERY)


def _waiting(server: "Server", done: set[Ended]) -> list[Answered]:
    """Return what is to be marked; a sitting of which nothing is left counts as done."""
    found = list[Answered]()
    with server.store.reading() as connection:
        for sitting in set(ended(connection)) - done:
            more = unmarked(connection, sitting[0])
            found += more
            if not more:
                done.add(sitting)
    return found
