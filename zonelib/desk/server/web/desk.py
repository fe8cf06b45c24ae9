"""The invigilator's addresses."""

import secrets
from functools import partial
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.acting import Act, act
from zonelib.desk.server.codes import desk_key, page_token, plain_code
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.running import sitting_named
from zonelib.desk.server.tries import note_try, refuse_many
from zonelib.desk.server.watching import all_sittings, last_events, watched
from zonelib.desk.server.web.base import TOKEN, Base, Refused

__all__ = ["ROUTES"]

COOKIE = "zonelib_desk"


class SignIn(Base):
    """``POST /api/desk/sign-in``: the key printed at the start."""

    async def post(self) -> None:
        """Sign in; tries are counted as for candidates, and apart from theirs."""
        right, typed = desk_key(self.server.store.secret), self.word("key", most=40)
        address = f"desk {self.request.remote_ip}"

        def enter(connection: sa.Connection) -> Refusal | str:
            refuse_many(connection, address, now=self.arrived)
            if secrets.compare_digest(plain_code(typed), plain_code(right)):
                return secrets.token_urlsafe(24)
            note_try(connection, address, now=self.arrived)
            return Refusal(403, "key-unknown")

        name = await self.writing(enter)
        self.keep_cookie(COOKIE, f"{right}.{name}")
        self.tell(state="in")


class DeskBase(Base):
    """A request from the invigilator's page."""

    @property
    def token(self) -> str:
        """What the page has to send with each change."""
        return page_token(self.server.store.secret, self.kept_cookie(COOKIE) or "")

    def prepare(self) -> None:
        """Let in who has the key."""
        super().prepare()
        key = (self.kept_cookie(COOKIE) or "").partition(".")[0]
        if key != desk_key(self.server.store.secret):
            raise Refused(Refusal(401, "not-desk"))
        if self.request.method not in ("GET", "HEAD") and self.request.headers.get(TOKEN, "") != self.token:
            raise Refused(Refusal(403, "no-token"))


class Sittings(DeskBase):
    """``GET /api/desk``: every sitting."""

    async def get(self) -> None:
        """List them."""
        self.tell(sittings=await self.reading(all_sittings), token=self.token)


class Watch(DeskBase):
    """``GET /api/desk/<sitting>``: how every seat stands; ``POST``: do something about it."""

    async def get(self, sitting: str) -> None:
        """Tell of the seats and of the newest lines of the log."""

        def look(connection: sa.Connection) -> dict[str, Any]:
            row = sitting_named(connection, sitting, locked=False)
            told = watched(connection, row, now=self.arrived)
            return {**told, "events": last_events(connection, row)}

        self.tell(**await self.reading(look))

    async def post(self, sitting: str) -> None:
        """Carry out an act."""
        minutes = self.sent().get("minutes")
        number = float(minutes) if isinstance(minutes, int | float) and not isinstance(minutes, bool) else 0.0
        wanted = Act(
            name=self.word("act"),
            sitting=sitting,
            seat=self.word("seat") or None,
            minutes=number,
            reason=self.word("reason"),
            now=self.arrived,
        )
        await self.writing(partial(act, wanted=wanted))
        self.tell(done=True)


ROUTES = [
    (r"/api/desk/sign-in", SignIn),
    (r"/api/desk", Sittings),
    (r"/api/desk/([a-z0-9][a-z0-9-]{0,39})", Watch),
]
