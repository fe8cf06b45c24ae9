"""Write a sitting's answers as hand-in files, so that they are marked as anything else handed in."""

import json
import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import sqlalchemy as sa

from zonelib.desk.plain import file_name
from zonelib.desk.server.records import records, stamp
from zonelib.desk.server.tables import items, seat_items, seats
from zonelib.desk.server.view import bundle_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.handin import HandIn, receipt_of

__all__ = ["Handed", "first_choices", "handed_in", "write_handed"]

FOLDER = "handed-in"
PARTS = ("exercises", "submitted", "variants")


@dataclass(frozen=True)
class Handed:
    """What one seat has: its hand-in file's contents, and the bundles it answers."""

    file: HandIn
    bundles: Sequence[Bundle]


def handed_in(connection: sa.Connection, sitting: str, *, now: float) -> list[Handed]:
    """Return what every seat of a sitting has stored, handed in or not."""
    query = sa.select(seats).where(seats.c.sitting == sitting).order_by(seats.c.candidate)
    return [_handed(connection, seat, now) for seat in connection.execute(query).all()]


def _handed(connection: sa.Connection, seat: Any, now: float) -> Handed:
    answers = records(connection, seat)
    query = sa.select(seat_items.c.bundle).where(seat_items.c.seat == seat.id).order_by(seat_items.c.exercise)
    bundles = [bundle_of(connection, code) for code in connection.execute(query).scalars()]
    data = {
        "schema": 1,
        "kind": "hand-in",
        "candidate": seat.candidate,
        "handed_in_at": stamp(seat.handed_in_at or seat.saved_at or now),
        "receipt": receipt_of(seat.candidate, answers),
        "answers": tuple(answers),
    }
    return Handed(HandIn.model_validate(data), bundles)


def first_choices(connection: sa.Connection, sitting: str) -> list[Bundle]:
    """Return each exercise of a sitting as the list of its variants begins."""
    query = sa.select(items.c.choices).where(items.c.sitting == sitting).order_by(items.c.position)
    codes = [json.loads(text)[0][0] for text in connection.execute(query).scalars()]
    return [bundle_of(connection, code) for code in codes]


def write_handed(sitting: str, handed: Sequence[Handed], common: Sequence[Bundle], out: Path) -> Path:
    """Write hand-in files and bundles as a course has them; return the folder, which is written anew."""
    folder = out / FOLDER
    for part in PARTS:
        shutil.rmtree(folder / part, ignore_errors=True)
    _write(common, folder / "exercises" / sitting)
    shared = {bundle.hash for bundle in common}
    for one in handed:
        home = folder / "submitted" / one.file.candidate / sitting
        home.mkdir(parents=True, exist_ok=True)
        (home / "hand-in.json").write_text(one.file.as_text(), encoding="utf-8", newline="\n")
        own = [bundle for bundle in one.bundles if bundle.hash not in shared]
        _write(own, folder / "variants" / sitting / file_name(one.file.candidate))
    return folder


def _write(bundles: Sequence[Bundle], folder: Path) -> None:
    for bundle in bundles:
        folder.mkdir(parents=True, exist_ok=True)
        bundle.write(folder)
