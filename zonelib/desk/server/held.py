"""What changes of many seats need to know, asked for at once, and what they change, stored at once."""

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.asking import (
    ANSWERS_CHANGED,
    ANSWERS_NEW,
    HEADS,
    ITEMS,
    LINES_NEW,
    PAUSES,
    SEATS_CHANGED,
    SEATS_HELD,
    SITTINGS,
)
from zonelib.desk.server.events import chain_of_seat, next_line
from zonelib.sheet.timing import Times, times

__all__ = ["Held"]


class Held:
    """Seats held until the transaction ends: however many there are, each kind of row is asked for once.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        Within a transaction that writes.
    seats, exercises : sequence of str
        The ids of the seats, and the exercises whose answers may change.

    Attributes
    ----------
    seats : dict
        By id, each as its row is stored; what is set on one is stored by `store`.
    items : dict
        By seat and exercise: the bundle, and the stored answer; its `revision` is None where there is none.
    """

    def __init__(self, connection: sa.Connection, seats: Sequence[str], exercises: Sequence[str]) -> None:
        asked = {"seats": seats, "exercises": exercises}
        self.connection = connection
        self.seats = {row.id: _loose(row) for row in connection.execute(SEATS_HELD, asked)}
        self.items = {(row.seat, row.exercise): _loose(row) for row in connection.execute(ITEMS, asked)}
        asked["sittings"] = sorted({seat.sitting for seat in self.seats.values()})
        self._sittings = {row.id: row for row in connection.execute(SITTINGS, asked)}
        self._pauses = connection.execute(PAUSES, asked).all()
        self._heads: dict[str, Any] = {row.id: row for row in connection.execute(HEADS, asked) if row.number}
        self._unanswered = {key for key, item in self.items.items() if item.revision is None}
        self._saved: dict[tuple[str, str], Any] = {}
        self._seen: dict[str, Any] = {}
        self._lines: list[dict[str, Any]] = []

    def sitting(self, seat: Any) -> Any:
        """Return the row of a seat's sitting."""
        return self._sittings[seat.sitting]

    def times(self, seat: Any, *, now: float) -> Times:
        """Return how a seat stands in time."""
        sitting = self.sitting(seat)
        of_seat = (one for one in self._pauses if one.sitting == sitting.id and one.seat in (None, seat.id))
        spans = [(one.begins, one.ends) for one in of_seat]
        return times(sitting.seconds, seat.extra, started_at=seat.started_at, pauses=spans, now=now)

    def seen(self, seat: Any, exercise: str | None, *, now: float) -> None:
        """Note that a seat's page is there, and on which question."""
        seat.seen_at, seat.at_exercise = now, exercise
        self._seen[seat.id] = seat

    def save(self, seat: Any, item: Any, *, revision: int, body: str, now: float) -> None:
        """Note an answer to be stored."""
        self._saved[seat.id, item.exercise] = item
        item.revision, item.body, item.saved_at = revision, body, now
        seat.saved_at = now
        self.seen(seat, item.exercise, now=now)

    def log(self, seat: Any, kind: str, *, now: float, **detail: Any) -> None:
        """Note a line of a seat's log."""
        chain, last = chain_of_seat(seat.id), self._heads.get(seat.id)
        line = next_line(last, chain, kind, at=now, actor=seat.candidate, **detail)
        self._heads[seat.id] = SimpleNamespace(**line)
        self._lines.append(line)

    def store(self) -> None:
        """Store all that was noted."""
        saved = [(key in self._unanswered, item) for key, item in self._saved.items()]
        self._write(ANSWERS_NEW, [{**_key(item), **_answer(item)} for new, item in saved if new])
        self._write(
            ANSWERS_CHANGED, [{**_key(item, "of_"), **_answer(item)} for new, item in saved if not new]
        )
        self._write(SEATS_CHANGED, [_seen(seat) for seat in self._seen.values()])
        self._write(LINES_NEW, self._lines)

    def _write(self, statement: sa.UpdateBase, rows: list[dict[str, Any]]) -> None:
        if rows:
            self.connection.execute(statement, rows if len(rows) > 1 else rows[0])


def _loose(row: Any) -> Any:
    """Return a row whose columns can be set."""
    return SimpleNamespace(**row._mapping)  # noqa: SLF001  SQLAlchemy's public name for a row as a mapping


def _key(item: Any, of: str = "") -> dict[str, Any]:
    return {f"{of}seat": item.seat, f"{of}exercise": item.exercise}


def _answer(item: Any) -> dict[str, Any]:
    return {"revision": item.revision, "saved_at": item.saved_at, "body": item.body}


def _seen(seat: Any) -> dict[str, Any]:
    told = {name: getattr(seat, name) for name in ("saved_at", "seen_at", "at_exercise")}
    return {"of_seat": seat.id, **told}
