"""What the server keeps, as tables; times are seconds since 1970 in UTC."""

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

settings = Table(
    "settings", metadata, Column("name", String(40), primary_key=True), Column("value", Text, nullable=False)
)

# `view` is what a candidate's page is given; made once, so that a sign-in of a whole room costs little.
bundles = Table(
    "bundles",
    metadata,
    Column("hash", String(64), primary_key=True),
    Column("exercise", String(80), nullable=False),
    Column("text", Text, nullable=False),
    Column("view", Text, nullable=False),
)

# A sitting is one set of exercises for a class: a practice, a homework or a quiz.
sittings = Table(
    "sittings",
    metadata,
    Column("id", String(60), primary_key=True),
    Column("title", String(200), nullable=False),
    Column("mode", String(10), nullable=False),
    Column("seconds", Float),
    Column("state", String(10), nullable=False),
    Column("made_at", Float, nullable=False),
    Column("opened_at", Float),
    Column("closed_at", Float),
    Column("released_at", Float),
    Column("order_key", String(64), nullable=False),
)

# `choices` holds the bundles of an exercise's variants; which one a seat gets is drawn when the seat is made.
items = Table(
    "items",
    metadata,
    Column("sitting", ForeignKey("sittings.id"), primary_key=True),
    Column("exercise", String(80), primary_key=True),
    Column("position", Integer, nullable=False),
    Column("choices", Text, nullable=False),
)

seats = Table(
    "seats",
    metadata,
    Column("id", String(32), primary_key=True),
    Column("sitting", ForeignKey("sittings.id"), nullable=False, index=True),
    Column("candidate", String(80), nullable=False),
    Column("code", String(64), nullable=False, unique=True),
    Column("extra", Float, nullable=False, default=0.0),
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
    Column("seat", ForeignKey("seats.id"), primary_key=True),
    Column("exercise", String(80), primary_key=True),
    Column("position", Integer, nullable=False),
    Column("bundle", ForeignKey("bundles.hash"), nullable=False),
    Column("variant", String(80)),
    Column("flagged", Boolean, nullable=False, default=False),
)

answers = Table(
    "answers",
    metadata,
    Column("seat", ForeignKey("seats.id"), primary_key=True),
    Column("exercise", String(80), primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("saved_at", Float, nullable=False),
    Column("body", Text, nullable=False),
)

pauses = Table(
    "pauses",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("sitting", ForeignKey("sittings.id"), nullable=False, index=True),
    Column("seat", ForeignKey("seats.id")),
    Column("begins", Float, nullable=False),
    Column("ends", Float),
)

takeovers = Table(
    "takeovers",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("seat", ForeignKey("seats.id"), nullable=False, index=True),
    Column("session", String(64), nullable=False, unique=True),
    Column("asked_at", Float, nullable=False),
    Column("decision", String(10)),
)

tries = Table(
    "tries",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("address", String(64), nullable=False),
    Column("at", Float, nullable=False),
    Index("tries_by_address", "address", "at"),
)

# Only ever added to; each line holds the hash of the one before it in its chain.
events = Table(
    "events",
    metadata,
    Column("chain", String(80), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("at", Float, nullable=False),
    Column("kind", String(40), nullable=False),
    Column("actor", String(80), nullable=False),
    Column("detail", Text, nullable=False),
    Column("before", String(64), nullable=False),
    Column("hash", String(64), nullable=False),
)

# By what was answered, not by whom: the same answer to the same question is marked once.
results = Table(
    "results",
    metadata,
    Column("bundle", ForeignKey("bundles.hash"), primary_key=True),
    Column("answer", String(64), primary_key=True),
    Column("shown", Text, nullable=False),
)

servers = Table(
    "servers",
    metadata,
    Column("id", String(32), primary_key=True),
    Column("started_at", Float, nullable=False),
    Column("seen_at", Float, nullable=False),
)
