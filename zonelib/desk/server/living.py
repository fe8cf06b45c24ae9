"""Servers tell that they live, so that a time without any is seen, logged, and can be given back."""

import sqlalchemy as sa

from zonelib.desk.server.events import chain_of_sitting, log
from zonelib.desk.server.tables import seats, servers, sittings

__all__ = ["beat", "last_seen"]

AWAY = 15.0
"""From which silence of every server counts as a time without one [s]."""

KEPT = 7 * 86400.0


def last_seen(connection: sa.Connection) -> float:
    """Return the latest time at which any server lived; 0 for none ever."""
    return float(connection.execute(sa.select(sa.func.max(servers.c.seen_at))).scalar_one() or 0.0)


def beat(connection: sa.Connection, name: str, *, now: float) -> float:
    """Tell that a server lives; return how long none did before [s], which is logged where someone sat."""
    seen = last_seen(connection)
    changed = connection.execute(servers.update().where(servers.c.id == name).values(seen_at=now))
    if not changed.rowcount:
        connection.execute(servers.delete().where(servers.c.seen_at < now - KEPT))
        connection.execute(servers.insert().values(id=name, started_at=now, seen_at=now))
    away = now - seen if seen else 0.0
    if away <= AWAY:
        return 0.0
    for sitting in _running(connection, since=seen):
        told = {"since": seen, "seconds": round(away, 1)}
        log(connection, chain_of_sitting(sitting), "server-away", at=now, actor="server", **told)
    return away


def _running(connection: sa.Connection, *, since: float) -> list[str]:
    """Return the open sittings with a clock in which somebody had begun."""
    begun = sa.exists().where((seats.c.sitting == sittings.c.id) & (seats.c.started_at <= since))
    query = sa.select(sittings.c.id).where(sittings.c.state == "open", sittings.c.seconds.is_not(None), begun)
    return list(connection.execute(query.with_for_update()).scalars())
