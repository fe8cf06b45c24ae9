"""The application, and the process that serves it."""

import asyncio
import secrets
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application

from zonelib.desk.server.clock import Clock
from zonelib.desk.server.codes import keyed
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.store import Store
from zonelib.desk.server.together import Wish, carry_out
from zonelib.desk.server.web import candidate, desk, files, marked
from zonelib.desk.server.web.ahead import marking_ahead
from zonelib.desk.server.web.beating import beating
from zonelib.desk.server.web.headers import headers
from zonelib.desk.server.web.waiting import Waiting

__all__ = ["Server", "serving"]

LARGEST = 512 * 1024
"""No request is larger [bytes]; an answer is held to less."""

HANDS = 8


class Server(Application):
    """All addresses on one database; nothing is true because this process remembers it.

    Parameters
    ----------
    store : Store
        The database.
    clock : Clock
        The server's time.
    """

    def __init__(self, store: Store, *, clock: Clock) -> None:
        self.store, self.clock, self.headers = store, clock, headers()
        self.name = secrets.token_hex(8)
        # One hand on a file: its transactions would only wait for each other, and less fairly.
        self.hands = ThreadPoolExecutor(1 if store.local else HANDS, thread_name_prefix="zonelib")
        self.waiting = Waiting(self._carry_out, self.hands)
        self.marker = ThreadPoolExecutor(1, thread_name_prefix="zonelib-marking")
        routes: list[Any] = [*candidate.ROUTES, *marked.ROUTES, *desk.ROUTES, *files.ROUTES]
        super().__init__(
            routes,
            cookie_secret=keyed(store.secret, "cookie", ""),
            default_handler_class=files.Nothing,
            log_function=lambda _handler: None,
        )

    def _carry_out(self, wishes: Sequence[Wish]) -> list[dict[str, Any] | Refusal]:
        with self.store.writing() as connection:
            return carry_out(connection, self.store.secret, wishes)

    def close(self) -> None:
        """Finish what is being stored."""
        self.hands.shutdown(wait=True)
        self.marker.shutdown(wait=True, cancel_futures=True)


async def serving(
    server: Server, *, host: str, port: int, proxied: bool, ready: Callable[[int], None]
) -> None:
    """Serve until cancelled; `ready` is told the port."""
    http = HTTPServer(server, xheaders=proxied, max_body_size=LARGEST, max_buffer_size=2 * LARGEST)
    sockets = bind_sockets(port, address=host)
    http.add_sockets(sockets)
    ready(sockets[0].getsockname()[1])
    beside = [asyncio.create_task(one(server)) for one in (beating, marking_ahead)]
    try:
        await asyncio.Event().wait()
    finally:
        for one in beside:
            one.cancel()
        http.stop()
        await http.close_all_connections()
        server.close()
