"""Addresses where something is marked, practised or tried."""

from functools import partial

import sqlalchemy as sa

from zonelib.desk.server.changes import standing
from zonelib.desk.server.feedback import asked_for_check, asked_for_results, checked
from zonelib.desk.server.practice import offered, practise
from zonelib.desk.server.results import result_of
from zonelib.desk.server.seats import Session
from zonelib.desk.server.view import tryout_view
from zonelib.desk.server.web.base import SEAT_COOKIE, Base, SeatBase

__all__ = ["ROUTES"]


class Practices(Base):
    """``GET /api/practice``: what anyone may practise; ``POST``: begin."""

    async def get(self) -> None:
        """List them."""
        self.tell(practices=await self.reading(offered))

    async def post(self) -> None:
        """Give a seat, and a code to come back with."""
        secret, sitting = self.server.store.secret, self.word("sitting")
        address = self.request.remote_ip or ""

        def begin(connection: sa.Connection) -> tuple[Session, str]:
            return practise(connection, secret, sitting, address=address, now=self.arrived)

        session, code = await self.writing(begin)
        self.keep_cookie(SEAT_COOKIE, str(session))
        self.tell(code=code)


class TryOut(SeatBase):
    """``GET /api/try-out``: a wall to try the pad on."""

    async def get(self) -> None:
        """Tell of it."""
        view = await self.work(tryout_view, slow=True)
        self.tell(task=view["task"], question=view["question"])


class Check(SeatBase):
    """``POST /api/check/<exercise>``: in practice, what is met and what to change."""

    async def post(self, exercise: str) -> None:
        """Mark the stored answer and tell."""
        asked = await self.read(asked_for_check, exercise)
        self.tell(**await self.work(lambda: checked(*asked), slow=True))


class Results(SeatBase):
    """``GET /api/results``: marks and reasons, and what a tutor has changed, once they are released."""

    async def get(self) -> None:
        """Tell of them; what was not marked yet is marked now."""
        store = self.server.store
        asked, changes = await self.read(asked_for_results)
        found = [await self.work(partial(result_of, store, one), slow=True) for one in asked]
        self.tell(**standing(found, changes))


ROUTES = [
    (r"/api/practice", Practices),
    (r"/api/try-out", TryOut),
    (r"/api/check/([A-Za-z0-9_\-]{1,60})", Check),
    (r"/api/results", Results),
]
