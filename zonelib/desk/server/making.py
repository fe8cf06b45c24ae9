"""Make a sitting: its exercises, its candidates with their codes, and each one's variants and order."""

import json
import secrets
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Literal

import sqlalchemy as sa

from zonelib.desk.server.codes import keyed, new_code, plain_code
from zonelib.desk.server.events import chain_of_seat, chain_of_sitting, log
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.tables import bundles, items, seat_items, seats, sittings
from zonelib.desk.server.view import view_text
from zonelib.exercise.bundle import Bundle

__all__ = ["Candidate", "Choice", "Mode", "Plan", "add_seat", "make_sitting", "put_items", "renew_code"]

Mode = Literal["practice", "homework", "quiz"]


@dataclass(frozen=True)
class Choice:
    """One variant of an exercise; `variant` None for the exercise itself."""

    bundle: Bundle
    variant: str | None = None


@dataclass(frozen=True)
class Candidate:
    """Who sits: a number, and time beside everyone's [s]."""

    number: str
    extra: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A sitting to be made.

    Attributes
    ----------
    id, title : str
        Its name in commands and addresses, and its heading.
    mode : str
        ``practice``, ``homework`` or ``quiz``.
    seconds : float or None
        Time for everyone [s]; None for no limit.
    exercises : sequence of sequences of Choice
        Each exercise with its variants.
    candidates : sequence of Candidate
        Who sits it.
    shuffled : bool
        Whether each candidate has an order of their own.
    """

    id: str
    title: str
    mode: Mode
    seconds: float | None
    exercises: Sequence[Sequence[Choice]]
    candidates: Sequence[Candidate] = ()
    shuffled: bool = True
    state: Literal["made", "open"] = "made"


def make_sitting(connection: sa.Connection, plan: Plan, *, secret: str, now: float) -> dict[str, str]:
    """Store a sitting and return the sign-in code of each candidate; only its hash is kept."""
    key = secrets.token_hex(32) if plan.shuffled else ""
    row = {"id": plan.id, "title": plan.title, "mode": plan.mode, "seconds": plan.seconds}
    opened = now if plan.state == "open" else None
    row |= {"state": plan.state, "made_at": now, "opened_at": opened, "order_key": key}
    connection.execute(sittings.insert().values(**row))
    put_items(connection, plan.id, plan.exercises)
    found = {name: [one.bundle.hash for one in each] for name, each in _named(plan.exercises)}
    told = {"mode": plan.mode, "seconds": plan.seconds, "exercises": found}
    log(connection, chain_of_sitting(plan.id), "made", at=now, actor="tutor", **told)
    return {
        one.number: add_seat(connection, plan.id, one, secret=secret, now=now)[1] for one in plan.candidates
    }


def put_items(connection: sa.Connection, sitting: str, exercises: Sequence[Sequence[Choice]]) -> None:
    """Store the exercises of a sitting with their bundles."""
    _store(connection, (one.bundle for each in exercises for one in each))
    rows = [_item(sitting, at, each) for at, each in enumerate(exercises, start=1)]
    connection.execute(items.insert(), rows)


def _named(exercises: Iterable[Sequence[Choice]]) -> Iterable[tuple[str, Sequence[Choice]]]:
    return ((each[0].bundle.exercise.id, each) for each in exercises)


def _store(connection: sa.Connection, found: Iterable[Bundle]) -> None:
    there = set(connection.execute(sa.select(bundles.c.hash)).scalars())
    for bundle in {one.hash: one for one in found}.values():
        row = {"hash": bundle.hash, "exercise": bundle.exercise.id, "text": bundle.text}
        if bundle.hash in there:
            connection.execute(
                bundles.update().where(bundles.c.hash == bundle.hash).values(view=view_text(bundle))
            )
        else:
            connection.execute(bundles.insert().values(**row, view=view_text(bundle)))


def _item(sitting: str, position: int, choices: Sequence[Choice]) -> dict[str, object]:
    told = json.dumps([[one.bundle.hash, one.variant] for one in choices])
    name = choices[0].bundle.exercise.id
    return {"sitting": sitting, "exercise": name, "position": position, "choices": told}


def add_seat(
    connection: sa.Connection, sitting: str, candidate: Candidate, *, secret: str, now: float
) -> tuple[str, str]:
    """Add a seat to a sitting and return its id and its code."""
    seat, code = secrets.token_hex(8), new_code()
    row = {"id": seat, "sitting": sitting, "candidate": candidate.number, "extra": candidate.extra}
    connection.execute(seats.insert().values(**row, code=keyed(secret, "code", plain_code(code))))
    connection.execute(seat_items.insert(), _drawn(connection, sitting, candidate.number, seat))
    told = {"candidate": candidate.number, "extra": candidate.extra}
    log(connection, chain_of_seat(seat), "seat", at=now, actor="tutor", **told)
    return seat, code


def renew_code(connection: sa.Connection, sitting: str, number: str, *, secret: str, now: float) -> str:
    """Give a seat a new code, for a slip that was lost; the old one opens nothing any more.

    Raises
    ------
    Refusal
        If the sitting has no such candidate.
    """
    wanted = (seats.c.sitting == sitting) & (seats.c.candidate == number)
    seat = connection.execute(sa.select(seats.c.id).where(wanted).with_for_update()).first()
    if seat is None:
        raise Refusal(404, "no-seat")
    code = new_code()
    values = {"code": keyed(secret, "code", plain_code(code))}
    connection.execute(seats.update().where(seats.c.id == seat.id).values(**values))
    log(connection, chain_of_seat(seat.id), "new-code", at=now, actor="tutor")
    return code


def _drawn(connection: sa.Connection, sitting: str, number: str, seat: str) -> list[dict[str, object]]:
    """Draw variant and order by a keyed hash, known to nobody.

    Every room goes to as many candidates, give or take one: by chance alone a small group could all have one.
    """
    key = connection.execute(sa.select(sittings.c.order_key).where(sittings.c.id == sitting)).scalar_one()
    query = sa.select(items).where(items.c.sitting == sitting).order_by(items.c.position)
    rows = list(connection.execute(query))
    if key:
        rows.sort(key=lambda row: keyed(key, "order", f"{number}\0{row.exercise}"))
    dealt = _dealt(connection, sitting)
    drawn = []
    for at, row in enumerate(rows, start=1):
        code, variant = min(json.loads(row.choices), key=partial(_turn, dealt, key, number))
        found = {"seat": seat, "exercise": row.exercise, "position": at, "bundle": code}
        drawn.append({**found, "variant": variant})
    return drawn


def _turn(dealt: Counter[str], key: str, number: str, choice: Sequence[str]) -> tuple[int, str]:
    return dealt[choice[0]], keyed(key, "variant", f"{number}\0{choice[0]}")


def _dealt(connection: sa.Connection, sitting: str) -> Counter[str]:
    """Return how many seats of a sitting have each room."""
    of_seat = seat_items.join(seats, seats.c.id == seat_items.c.seat)
    query = sa.select(seat_items.c.bundle, sa.func.count()).select_from(of_seat)
    rows = connection.execute(query.where(seats.c.sitting == sitting).group_by(seat_items.c.bundle))
    return Counter({row[0]: row[1] for row in rows})
