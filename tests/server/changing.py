"""A sitting whose marks a tutor changes by the command line, while its server goes on."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from click.testing import CliRunner, Result

from tests.server.room import Client, Room
from zonelib.cli.override import command as override
from zonelib.cli.quiz import command as quiz
from zonelib.desk.server.changes import CHANGED
from zonelib.desk.server.events import verify
from zonelib.desk.server.tables import events

__all__ = ["DROP", "REASON", "Marked"]

DROP, REASON = "bedroom-drop", "Seen at the bench."


@dataclass
class Marked:
    """A sitting, one of its candidates, and the folder that it is marked into."""

    room: Room
    seat: Client
    course: Path
    database: str

    @property
    def out(self) -> Path:
        return self.course / "marked"

    def quiz(self, *arguments: str) -> Result:
        return CliRunner().invoke(quiz, [*arguments, "--in", str(self.course), "--database", self.database])

    def mark(self, out: Path | None = None) -> Result:
        ran = self.quiz("mark", "autumn", "--out", str(out or self.out))
        assert ran.exit_code == 0, ran.output
        return ran

    def change(
        self, score: float | None, *more: str, out: Path | None = None, reason: str = REASON
    ) -> Result:
        what = ["--remove"] if score is None else [str(score)]
        told = ["C-001", DROP, *what, "--reason", reason, "--by", "second marker", *more]
        return CliRunner().invoke(override, [str(out or self.out), *told])

    def page(self) -> dict[str, Any]:
        reply = self.seat.get("/api/results")
        assert reply.status == 200, reply.data
        return reply.data

    def counts(self) -> dict[str, float]:
        return {one["exercise"]: one["counts"] for one in self.page()["results"]}

    def computed(self) -> float:
        return float(next(one["score"] for one in self.page()["results"] if one["exercise"] == DROP))

    def log(self) -> list[dict[str, Any]]:
        with self.room.store.reading() as connection:
            assert verify(connection, "autumn")[1] == []
            query = sa.select(events.c.detail).where(events.c.kind == CHANGED).order_by(events.c.number)
            return [json.loads(text) for text in connection.execute(query).scalars()]
