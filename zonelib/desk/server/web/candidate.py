"""A candidate's addresses."""

import re

import sqlalchemy as sa

from zonelib.desk.server.answers import read_change
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.seats import SignedIn, leave, session_of, sign_in
from zonelib.desk.server.sitting import begin, flag, hand_in, overview, question
from zonelib.desk.server.state import pulse_of
from zonelib.desk.server.together import Look, Save
from zonelib.desk.server.web.base import SEAT_COOKIE, Base, Refused, SeatBase

__all__ = ["ROUTES"]

EXERCISE = r"([A-Za-z0-9_\-]{1,60})"


class SignIn(Base):
    """``POST /api/sign-in``: a code for a seat."""

    async def post(self) -> None:
        """Sign in, or wait for the invigilator where the seat is in use elsewhere."""
        secret, code = self.server.store.secret, self.word("code", most=40)
        old, address = session_of(self.kept_cookie(SEAT_COOKIE)), self.request.remote_ip or ""

        def enter(connection: sa.Connection) -> SignedIn | Refusal:
            return sign_in(connection, secret, code, address=address, now=self.arrived, old=old)

        found = await self.writing(enter)
        self.keep_cookie(SEAT_COOKIE, str(found.session))
        self.tell(state=found.state)


class Sitting(SeatBase):
    """``GET /api/sitting``: all that a page needs when it opens."""

    async def get(self) -> None:
        """Tell of the sitting."""
        found = await self.read(overview, now=self.arrived)
        self.tell(**found, token=self.token)


class Pulse(SeatBase):
    """``POST /api/pulse``: the page is there, and asks how the seat stands."""

    async def post(self) -> None:
        """Note it and tell."""
        at = self.word("at", most=80)
        wish = Look(self.seated, self.arrived, at if re.fullmatch(EXERCISE, at) else None)
        self.tell(pulse=await self.told(self.server.waiting.ask(wish)))


class Begin(SeatBase):
    """``POST /api/start``: the clock starts."""

    async def post(self) -> None:
        """Start it."""
        await self.change(begin, now=self.arrived)
        self.tell(pulse=await self.read(pulse_of, now=self.arrived))


class Question(SeatBase):
    """``GET /api/question/<exercise>``: a question, its pad, and the stored answer."""

    async def get(self, exercise: str) -> None:
        """Tell of it."""
        self.tell(**await self.read(question, exercise))


class Answer(SeatBase):
    """``PUT /api/answer/<exercise>``: an answer with its revision."""

    async def put(self, exercise: str) -> None:
        """Store it; the same one again changes nothing, an older one is refused with the newer."""
        try:
            change = read_change(self.request.body)
        except Refusal as refusal:
            raise Refused(refusal) from refusal
        wish = Save(self.seated, self.arrived, exercise, change)
        self.tell(**await self.told(self.server.waiting.ask(wish)), now=self.arrived)


class Flag(SeatBase):
    """``POST /api/flag/<exercise>``: a question to come back to."""

    async def post(self, exercise: str) -> None:
        """Mark it, or unmark it."""
        await self.change(flag, exercise, flagged=self.sent().get("flagged") is True)
        self.tell(done=True)


class HandIn(SeatBase):
    """``POST /api/hand-in``: the candidate has finished."""

    async def post(self) -> None:
        """Hand in and give the receipt."""
        ended = self.sent().get("ended") is True
        receipt = await self.change(hand_in, now=self.arrived, ended=ended)
        self.tell(receipt=receipt, pulse=await self.read(pulse_of, now=self.arrived))


class Leave(SeatBase):
    """``POST /api/leave``: sign out on this device."""

    async def post(self) -> None:
        """Let go of the seat."""
        await self.change(leave, now=self.arrived)
        self.clear_cookie(SEAT_COOKIE)
        self.tell(done=True)


ROUTES = [
    (r"/api/sign-in", SignIn),
    (r"/api/sitting", Sitting),
    (r"/api/pulse", Pulse),
    (r"/api/start", Begin),
    (rf"/api/question/{EXERCISE}", Question),
    (rf"/api/answer/{EXERCISE}", Answer),
    (rf"/api/flag/{EXERCISE}", Flag),
    (r"/api/hand-in", HandIn),
    (r"/api/leave", Leave),
]
