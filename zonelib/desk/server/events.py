"""The event log: lines that are only added, each bound to the one before it by its hash."""

import hashlib
import json
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.asking import LINE_LAST, LINES_NEW
from zonelib.desk.server.tables import events, seats

__all__ = [
    "Break",
    "chain_of_seat",
    "chain_of_sitting",
    "chains",
    "first_hash",
    "heads",
    "last_hash",
    "log",
    "next_line",
    "sealed_by",
    "verify",
]

START = "0" * 64


@dataclass(frozen=True)
class Break:
    """Where a chain does not hold."""

    chain: str
    number: int
    why: str

    def __str__(self) -> str:
        """Return the break as one line."""
        return f"{self.chain}, line {self.number}: {self.why}"


def chain_of_sitting(sitting: str) -> str:
    """Return the name of a sitting's own chain."""
    return f"sitting:{sitting}"


def chain_of_seat(seat: str) -> str:
    """Return the name of a seat's chain: seats do not wait for each other."""
    return f"seat:{seat}"


def log(connection: sa.Connection, chain: str, kind: str, *, at: float, actor: str, **detail: Any) -> str:
    """Add a line to a chain and return its hash; the caller holds the row that the chain belongs to."""
    last = connection.execute(LINE_LAST, {"chain": chain}).first()
    line = next_line(last, chain, kind, at=at, actor=actor, **detail)
    connection.execute(LINES_NEW, line)
    return str(line["hash"])


def next_line(last: Any, chain: str, kind: str, *, at: float, actor: str, **detail: Any) -> dict[str, Any]:
    """Return the line that follows the last one of a chain; None where there is none yet."""
    number, before = (last.number + 1, last.hash) if last else (1, START)
    text = json.dumps(detail, sort_keys=True, separators=(",", ":"), allow_nan=False)
    line = {"chain": chain, "number": number, "at": at, "kind": kind, "actor": actor, "detail": text}
    return {**line, "before": before, "hash": _hash(line, before)}


def _hash(line: dict[str, Any], before: str) -> str:
    told = [line[name] for name in ("chain", "number", "at", "kind", "actor", "detail")]
    return hashlib.sha256(json.dumps([before, *told]).encode()).hexdigest()


def chains(connection: sa.Connection, sitting: str) -> list[str]:
    """Return the chains of a sitting: its own first, then one for each seat."""
    query = sa.select(seats.c.id).where(seats.c.sitting == sitting).order_by(seats.c.candidate)
    return [chain_of_sitting(sitting), *map(chain_of_seat, connection.execute(query).scalars())]


def heads(connection: sa.Connection, sitting: str) -> dict[str, str]:
    """Return the last hash of each seat's chain, to be sealed into the sitting's own."""
    found = {}
    for chain in chains(connection, sitting)[1:]:
        last = connection.execute(LINE_LAST, {"chain": chain}).first()
        if last:
            found[chain] = f"{last.number}:{last.hash}"
    return found


def first_hash(connection: sa.Connection, sitting: str) -> str:
    """Return the hash of the first line of a sitting's own chain, which no other sitting has."""
    query = sa.select(events.c.hash).where(events.c.chain == chain_of_sitting(sitting))
    return connection.execute(query.order_by(events.c.number).limit(1)).scalar() or START


def last_hash(connection: sa.Connection, sitting: str) -> str:
    """Return the hash of the last line of a sitting's own chain."""
    query = sa.select(events.c.hash).where(events.c.chain == chain_of_sitting(sitting))
    return connection.execute(query.order_by(events.c.number.desc()).limit(1)).scalar() or START


def sealed_by(connection: sa.Connection, sitting: str, seal: str) -> bool:
    """Tell whether a sitting's own chain still has the line with a hash that was noted."""
    wanted = (events.c.chain == chain_of_sitting(sitting)) & (events.c.hash == seal.strip().lower())
    return connection.execute(sa.select(events.c.number).where(wanted)).first() is not None


def verify(connection: sa.Connection, sitting: str) -> tuple[int, list[Break]]:
    """Return how many lines the log of a sitting has, and every place where it does not hold."""
    broken: list[Break] = []
    seen: dict[tuple[str, int], str] = {}
    sealed: list[tuple[int, dict[str, str]]] = []
    for chain in chains(connection, sitting):
        broken += _broken(connection, chain, seen, sealed)
    for number, kept in sealed:
        for chain, head in kept.items():
            at, code = head.split(":")
            if seen.get((chain, int(at))) != code:
                why = f"line {number} of the sitting's log sealed line {at}, which is gone or changed"
                broken.append(Break(chain, int(at), why))
    return len(seen), broken


def _broken(
    connection: sa.Connection,
    chain: str,
    seen: dict[tuple[str, int], str],
    sealed: list[tuple[int, dict[str, str]]],
) -> list[Break]:
    before, wanted, found = START, 1, []
    query = sa.select(events).where(events.c.chain == chain).order_by(events.c.number)
    for row in connection.execute(query).mappings():
        if row["number"] != wanted:
            found.append(Break(chain, wanted, f"missing; the next line is {row['number']}"))
        elif row["before"] != before:
            found.append(Break(chain, wanted, "it does not follow the line before it"))
        if row["hash"] != _hash(dict(row), row["before"]):
            found.append(Break(chain, row["number"], "it was changed after it was written"))
        before, wanted = row["hash"], row["number"] + 1
        seen[chain, row["number"]] = row["hash"]
        if row["kind"] == "sealed":
            sealed.append((row["number"], json.loads(row["detail"])["heads"]))
    return found
