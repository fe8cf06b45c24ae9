"""How often codes may be tried: counted in the database, so that every server counts the same."""

import sqlalchemy as sa

from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.tables import tries

__all__ = ["MOST", "WINDOW", "note_try", "refuse_many"]

MOST = 20
"""Codes that fit no seat, from one address in a window; a class behind one address shares them."""

WINDOW = 60.0  # s


def refuse_many(connection: sa.Connection, address: str, *, now: float, most: int = MOST) -> None:
    """Refuse an address from which too many codes were tried.

    Raises
    ------
    Refusal
        With how long to wait.
    """
    recent = (tries.c.address == address) & (tries.c.at > now - WINDOW)
    query = sa.select(sa.func.count(), sa.func.min(tries.c.at)).where(recent)
    many, first = connection.execute(query).one()
    if many >= most:
        raise Refusal(429, "too-many", seconds=max(int(first + WINDOW - now) + 1, 1))


def note_try(connection: sa.Connection, address: str, *, now: float) -> None:
    """Count a try, and forget those that no longer count."""
    connection.execute(tries.delete().where(tries.c.at < now - 10 * WINDOW))
    connection.execute(tries.insert().values(address=address[:64], at=now))
