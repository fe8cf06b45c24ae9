"""Marks that a tutor changed, as lines of the seats' logs: only ever added, so none is lost or hidden."""

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import sqlalchemy as sa

from zonelib.desk.changed import change_words, table_html
from zonelib.desk.overrides import Change, in_force
from zonelib.desk.plain import cell
from zonelib.desk.server.asking import SEATS_HELD
from zonelib.desk.server.events import chain_of_seat, log
from zonelib.desk.server.tables import events, seats

__all__ = ["CHANGED", "changes_of", "log_changes", "standing"]

CHANGED = "mark-changed"
"""Kind of the lines. One without a mark takes the change before it back."""

PARTS = ("exercise", "computed", "score", "reason", "by", "when")


def changes_of(connection: sa.Connection, sitting: str, *, seat: str = "") -> list[Change]:
    """Return the changes that the logs of a sitting's seats hold, or of one seat's, oldest first."""
    there = "seat:" + seats.c.id
    joined = events.join(seats, events.c.chain == there)
    query = sa.select(seats.c.candidate, events.c.detail).select_from(joined)
    wanted = (seats.c.sitting == sitting) & (events.c.kind == CHANGED)
    wanted &= seats.c.id == seat if seat else sa.true()
    rows = connection.execute(query.where(wanted).order_by(events.c.chain, events.c.number))
    return [_change(row, sitting) for row in rows]


def _change(row: Any, sitting: str) -> Change:
    detail = json.loads(row.detail)
    return Change(cell(row.candidate), cell(sitting), **{name: detail[name] for name in PARTS})


def log_changes(connection: sa.Connection, sitting: str, changes: Sequence[Change], *, now: float) -> None:
    """Add changes to the logs of their seats; one of a candidate who has no seat is left out."""
    rows = connection.execute(sa.select(seats.c.id, seats.c.candidate).where(seats.c.sitting == sitting))
    ids = {cell(row.candidate): row.id for row in rows}
    wanted = [(ids[one.trainee], one) for one in changes if one.trainee in ids]
    connection.execute(SEATS_HELD, {"seats": sorted({seat for seat, _ in wanted})}).all()
    for seat, one in wanted:
        told = {name: getattr(one, name) for name in PARTS}
        log(connection, chain_of_seat(seat), CHANGED, at=now, actor="tutor", **told)


def standing(results: Sequence[dict[str, Any]], changes: Sequence[Change]) -> dict[str, Any]:
    """Return a seat's results as its page shows them: the mark that counts beside the program's own.

    Parameters
    ----------
    results : sequence of dict
        From `result_of`, in the seat's order; they are shared by all who gave the same answer.
    changes : sequence of Change
        From `changes_of`, of this seat alone.
    """
    latest = {one.exercise: one for one in in_force(changes).values()}
    there = [(one, latest.get(one["exercise"])) for one in results]
    changed = [replace(change, computed=one["score"]) for one, change in there if change]
    titles = {one["exercise"]: one["title"] for one in results}
    told = [_counted(one, change) for one, change in there]
    return {"results": told, "changes": table_html(changed, titles=titles)}


def _counted(one: dict[str, Any], change: Change | None) -> dict[str, Any]:
    """Return a result with the mark that counts; the program's is that of the answer as it is now."""
    if change is None:
        return {**one, "counts": one["score"], "changed": ""}
    return {**one, "counts": change.score, "changed": change_words(replace(change, computed=one["score"]))}
