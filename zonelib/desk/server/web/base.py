"""What every address has: who is asking, headers, JSON in and out, and the database off the loop."""

import asyncio
import json
from collections.abc import Awaitable, Callable
from functools import cached_property
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, TypeVar
from urllib.parse import urlsplit

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError, SQLAlchemyError
from tornado.web import HTTPError, RequestHandler

from zonelib.desk.server.codes import page_token
from zonelib.desk.server.refusal import Refusal, say
from zonelib.desk.server.seats import Session, held_seat, session_of

if TYPE_CHECKING:
    from zonelib.desk.server.web.app import Server

__all__ = ["SEAT_COOKIE", "TOKEN", "Base", "Refused", "SeatBase"]

SEAT_COOKIE = "zonelib_seat"
KEPT_DAYS = 7
TOKEN = "X-Zonelib-Page"  # noqa: S105  the name of a header

P = ParamSpec("P")
T = TypeVar("T")
OnSeat = Callable[Concatenate[sa.Connection, Any, P], T]


class Refused(HTTPError):
    """A refusal on its way to the page."""

    def __init__(self, refusal: Refusal) -> None:
        super().__init__(refusal.status)
        self.refusal = refusal


class Base(RequestHandler):
    """A request: checked before anything of it is looked at."""

    @property
    def server(self) -> "Server":
        """The application, typed."""
        found: Server = self.application  # type: ignore[assignment]
        return found

    def set_default_headers(self) -> None:
        """Say what a browser may do with what it gets."""
        for name, value in self.server.headers.items():
            self.set_header(name, value)
        self.set_header("Cache-Control", "no-store")

    def prepare(self) -> None:
        """Note the time of arrival, and refuse changes that another site asks for."""
        self.arrived = self.server.clock()
        if self.request.method not in ("GET", "HEAD"):
            self._refuse_other_sites()

    def _refuse_other_sites(self) -> None:
        origin = self.request.headers.get("Origin", "")
        if urlsplit(origin).netloc.lower() != self.request.host.lower():
            raise Refused(Refusal(403, "other-site"))
        kind = self.request.headers.get("Content-Type", "").partition(";")[0].strip()
        if kind != "application/json":
            raise Refused(Refusal(415, "not-json"))

    def sent(self) -> dict[str, Any]:
        """Return the JSON object that was sent."""
        try:
            data = json.loads(self.request.body or b"{}")
        except (ValueError, RecursionError) as error:
            raise Refused(Refusal(400, "not-json")) from error
        if not isinstance(data, dict):
            raise Refused(Refusal(400, "not-json"))
        return data

    def word(self, name: str, *, most: int = 200) -> str:
        """Return a text that was sent, or ""."""
        found = self.sent().get(name)
        return found[:most] if isinstance(found, str) else ""

    def tell(self, **data: Any) -> None:
        """Answer with JSON."""
        self.set_header("Content-Type", "application/json; charset=utf-8")
        self.finish(json.dumps(data, separators=(",", ":"), allow_nan=False))

    async def work(self, task: Callable[[], T | Refusal], *, slow: bool = False) -> T:
        """Run a task while the server goes on with others; `slow` for marking, which no save may wait for."""
        loop = asyncio.get_running_loop()
        return await self.told(loop.run_in_executor(self.server.marker if slow else self.server.hands, task))

    async def writing(self, act: Callable[[sa.Connection], T | Refusal]) -> T:
        """Run an act in one transaction."""

        def task() -> T | Refusal:
            with self.server.store.writing() as connection:
                return act(connection)

        return await self.work(task)

    async def reading(self, look: Callable[[sa.Connection], T]) -> T:
        """Look something up."""

        def task() -> T:
            with self.server.store.reading() as connection:
                return look(connection)

        return await self.work(task)

    async def told(self, work: Awaitable[T | Refusal]) -> T:
        """Wait for work elsewhere; what it does not do is told to the page in words."""
        try:
            found = await work
        except Refusal as refusal:
            raise Refused(refusal) from refusal
        except SQLAlchemyError as error:
            if isinstance(error, DBAPIError):
                raise Refused(Refusal(503, "busy")) from error
            raise
        if isinstance(found, Refusal):
            raise Refused(found)
        return found

    def write_error(self, status_code: int, **kwargs: Any) -> None:
        """Tell in words why nothing was done."""
        error = (kwargs.get("exc_info") or (None, None, None))[1]
        if isinstance(error, Refused):
            refusal = error.refusal
            self.tell(error=refusal.entry, words=refusal.words, **refusal.more)
            return
        entry = "fault" if status_code >= 500 else "nothing-here"  # noqa: PLR2004  HTTP's own number
        self.tell(error=entry, words=say(entry))

    def keep_cookie(self, name: str, value: str) -> None:
        """Set a cookie that only this server reads, and no script."""
        safe = self.request.protocol == "https"
        self.set_signed_cookie(
            name, value, expires_days=KEPT_DAYS, httponly=True, samesite="Strict", secure=safe, path="/"
        )

    def kept_cookie(self, name: str) -> str | None:
        """Return a cookie's text, if this server has signed it."""
        found = self.get_signed_cookie(name, max_age_days=KEPT_DAYS)
        return found.decode("utf-8", "replace") if found else None


class SeatBase(Base):
    """A request from a candidate's page."""

    @cached_property
    def session(self) -> Session | None:
        """What the page's cookie says."""
        return session_of(self.kept_cookie(SEAT_COOKIE))

    def prepare(self) -> None:
        """Refuse changes that do not come from a page of ours."""
        super().prepare()
        if self.request.method in ("GET", "HEAD"):
            return
        if self.request.headers.get(TOKEN, "") != page_token(self.server.store.secret, self.seated.name):
            raise Refused(Refusal(403, "no-token"))

    @property
    def token(self) -> str:
        """What the page has to send with each change."""
        return page_token(self.server.store.secret, self.session.name) if self.session else ""

    @property
    def seated(self) -> Session:
        """The session of a page that has one."""
        if self.session is None:
            raise Refused(Refusal(401, "not-in"))
        return self.session

    async def change(self, act: OnSeat[P, T], *args: P.args, **more: P.kwargs) -> T:
        """Run an act on the seat that the page holds, in one transaction."""
        secret, session = self.server.store.secret, self.session

        def on_seat(connection: sa.Connection) -> T:
            return act(connection, held_seat(connection, secret, session, locked=True), *args, **more)

        return await self.writing(on_seat)

    async def read(self, look: OnSeat[P, T], *args: P.args, **more: P.kwargs) -> T:
        """Look at the seat that the page holds."""
        secret, session = self.server.store.secret, self.session

        def at_seat(connection: sa.Connection) -> T:
            return look(connection, held_seat(connection, secret, session), *args, **more)

        return await self.reading(at_seat)
