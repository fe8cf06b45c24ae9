"""What the server keeps, as tables; times are seconds since 1970 in UTC."""

from typing import Any

from sqlalchemy import Boolean, Column, Float, ForeignKey, Index, Integer, MetaData, String, Table, Text

__all__ = [
    "SCHEMA",
    "answers",
    "bundles",
    "events",
    "items",
    "metadata",
    "pauses",
    "results",
    "seat_items",
    "seats",
    "servers",
    "settings",
    "sittings",
    "takeovers",
    "tries",
]

SCHEMA = 2
"""Version of these tables; a database of a newer one is refused."""

metadata = MetaData()


def _key(name: str, kind: Any) -> Column[Any]:
    return Column(name, kind, primary_key=True)


def _must(name: str, kind: Any, **more: Any) -> Column[Any]:
    return Column(name, kind, nullable=False, **more)


def _of_seat() -> tuple[Column[Any], Column[Any]]:
    """Return the columns of what a seat has once for each exercise."""
    return _key("seat", ForeignKey("seats.id")), _key("exercise", String(80))


settings = Table("settings", metadata, _key("name", String(40)), _must("value", Text))

# `view` is what a candidate's page is given; made once, so that a sign-in of a whole room costs little.
bundles = Table(
    "bundles",
    metadata,
    _key("hash", String(64)),
    _must("exercise", String(80)),
    _must("text", Text),
    _must("view", Text),
)

# A sitting is one set of exercises for a class: a practice, a homework or a quiz.
sittings = Table(
    "sittings",
    metadata,
    _key("id", String(60)),
    _must("title", String(200)),
    _must("mode", String(10)),
    Column("seconds", Float),
    _must("state", String(10)),
    _must("made_at", Float),
    Column("opened_at", Float),
    Column("closed_at", Float),
    Column("released_at", Float),
    _must("order_key", String(64)),
)

# `choices` holds the bundles of an exercise's variants; which one a seat gets is drawn when the seat is made.
items = Table(
    "items",
    metadata,
    _key("sitting", ForeignKey("sittings.id")),
    _key("exercise", String(80)),
    _must("position", Integer),
    _must("choices", Text),
)

seats = Table(
    "seats",
    metadata,
    _key("id", String(32)),
    _must("sitting", ForeignKey("sittings.id"), index=True),
    _must("candidate", String(80)),
    _must("code", String(64), unique=True),
    _must("extra", Float, default=0.0),
    Column("started_at", Float),
    Column("handed_in_at", Float),
    Column("receipt", String(20)),
    Column("session", String(64)),
    Column("seen_at", Float),
    Column("at_exercise", String(80)),
    Column("saved_at", Float),
)

seat_items = Table(
    "seat_items",
    metadata,
    *_of_seat(),
    _must("position", Integer),
    _must("bundle", ForeignKey("bundles.hash")),
    Column("variant", String(80)),
    _must("flagged", Boolean, default=False),
)

answers = Table(
    "answers",
    metadata,
    *_of_seat(),
    _must("revision", Integer),
    _must("saved_at", Float),
    _must("body", Text),
)

pauses = Table(
    "pauses",
    metadata,
    _key("id", Integer),
    _must("sitting", ForeignKey("sittings.id"), index=True),
    Column("seat", ForeignKey("seats.id")),
    _must("begins", Float),
    Column("ends", Float),
)

takeovers = Table(
    "takeovers",
    metadata,
    _key("id", Integer),
    _must("seat", ForeignKey("seats.id"), index=True),
    _must("session", String(64), unique=True),
    _must("asked_at", Float),
    Column("decision", String(10)),
)

tries = Table(
    "tries",
    metadata,
    _key("id", Integer),
    _must("address", String(64)),
    _must("at", Float),
    Index("tries_by_address", "address", "at"),
)

# Only ever added to; each line holds the hash of the one before it in its chain.
events = Table(
    "events",
    metadata,
    _key("chain", String(80)),
    _key("number", Integer),
    _must("at", Float),
    _must("kind", String(40)),
    _must("actor", String(80)),
    _must("detail", Text),
    _must("before", String(64)),
    _must("hash", String(64)),
)

# By what was answered, not by whom: the same answer to the same question is marked once.
results = Table(
    "results",
    metadata,
    _key("bundle", ForeignKey("bundles.hash")),
    _key("answer", String(64)),
    _must("shown", Text),
)

servers = Table(
    "servers",
    metadata,
    _key("id", String(32)),
    _must("started_at", Float),
    _must("seen_at", Float),
)
