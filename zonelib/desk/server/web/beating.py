"""The server's heartbeat: every few seconds it tells the database that it lives, and looks at the clock."""

import asyncio
import logging
from typing import TYPE_CHECKING

from sqlalchemy.exc import SQLAlchemyError

from zonelib.desk.server.living import beat

if TYPE_CHECKING:
    from zonelib.desk.server.web.app import Server

__all__ = ["EVERY", "beating"]

EVERY = 5.0  # s
LOG = logging.getLogger("zonelib.server")


async def beating(server: "Server") -> None:
    """Beat until cancelled; a database that does not answer is tried again at the next beat."""
    loop = asyncio.get_running_loop()
    while True:
        try:
            await loop.run_in_executor(server.hands, _once, server)
        except SQLAlchemyError as error:
            LOG.warning("The database did not answer: %s", type(error).__name__)
        await asyncio.sleep(EVERY)


def _once(server: "Server") -> None:
    if apart := server.clock.look():
        LOG.warning(
            "This machine's date was set by %+.0f s. The clock of the sittings runs on as before.", apart
        )
    with server.store.writing() as connection:
        away = beat(connection, server.name, now=server.clock())
    server.store.flush()
    if away:
        LOG.warning("No server was running for %.0f s. The invigilator's page can give that time back.", away)
