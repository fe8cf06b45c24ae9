"""The database: opened, checked, and used in short transactions."""

import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from zonelib.desk.server.place import refuse_network
from zonelib.desk.server.tables import SCHEMA, metadata, results, settings
from zonelib.site.faults import Fault, FileFault

__all__ = ["FILE", "Store", "file_of", "lasting_name", "open_store"]

FILE = "server.sqlite"
"""Name of the database in a course's folder."""

PATIENCE = 10_000
"""How long a process waits for another one's transaction [ms]."""

NO_ANSWER = 10
"""How long to wait for a database server that does not answer [s]."""


class Store:
    """One database, shared by as many processes as like.

    Parameters
    ----------
    engine : sqlalchemy.Engine
        From `open_store`.
    """

    def __init__(self, engine: sa.Engine) -> None:
        self.engine = engine
        self._writer = engine.execution_options(writes=True)
        self.local = engine.dialect.name == "sqlite"
        with self.reading() as connection:
            query = sa.select(settings.c.value).where(settings.c.name == "secret")
            self.secret: str = connection.execute(query).scalar_one()

    @contextmanager
    def reading(self) -> Iterator[sa.Connection]:
        """Give a connection to read with."""
        with self.engine.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[sa.Connection]:
        """Give a connection whose changes are all kept when the block ends, or none."""
        with self._writer.begin() as connection:
            yield connection

    def time(self) -> float | None:
        """Return the database's own time, which all servers share; None where it is a file."""
        if self.local:
            return None
        with self.reading() as connection:
            return float(
                connection.execute(sa.text("SELECT extract(epoch FROM clock_timestamp())")).scalar_one()
            )

    def flush(self) -> None:
        """Bring what is written to the disk, so that it outlasts a power cut."""
        if self.local:
            with self.reading() as connection:
                connection.exec_driver_sql("COMMIT")  # a checkpoint takes no transaction
                connection.exec_driver_sql("PRAGMA wal_checkpoint(PASSIVE)")
                connection.exec_driver_sql("BEGIN")

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def open_store(course: Path, database: str | None = None) -> Store:
    """Open the database of a course, making it where there is none.

    Parameters
    ----------
    course : Path
        The course's folder; the file lies there unless told otherwise.
    database : str, optional
        A path, or the address of a PostgreSQL database.

    Raises
    ------
    FileFault
        If it lies on a network drive, is of a newer version, or cannot be opened.
    """
    name = database or str(course / FILE)
    try:
        path = file_of(name)
        engine = _server(name) if path is None else _file(path)
        with _let_go_if_refused(engine):
            _prepare(engine, _shown(name))
    except SQLAlchemyError as error:
        told = str(error.orig if isinstance(error, DBAPIError) and error.orig else error).splitlines()[0]
        raise FileFault(_shown(name), [Fault("the database", told, "one that can be opened")]) from error
    except ImportError as error:
        told = "zonelib with PostgreSQL: pip install 'zonelib[postgresql]'"
        raise FileFault(_shown(name), [Fault("the database", f"no {error.name}", told)]) from error
    return Store(engine)


def file_of(name: str) -> Path | None:
    """Return the file that a database's name means; None where a server has it."""
    if "://" not in name:
        return Path(name)
    url = sa.make_url(name)
    return Path(url.database or "") if url.get_backend_name() == "sqlite" else None


def lasting_name(course: Path, database: str | None = None) -> str:
    """Return what a database is called from any folder, as it may be written down: without a password."""
    name = database or str(course / FILE)
    if path := file_of(name):
        return str(path.resolve())
    url = sa.make_url(name)
    query = {key: value for key, value in url.query.items() if "password" not in key}
    place = sa.URL.create(
        url.drivername, url.username, host=url.host, port=url.port, database=url.database, query=query
    )
    return place.render_as_string(hide_password=False)


def _shown(name: str) -> str:
    """Return a database's name without a password in it."""
    return sa.make_url(name).render_as_string(hide_password=True) if "://" in name else name


def _server(name: str) -> sa.Engine:
    url = sa.make_url(name)
    if url.get_backend_name() not in ("postgresql", "postgres"):
        allowed = "postgresql://… or the path of a file"
        raise FileFault(_shown(name), [Fault("the database", url.get_backend_name(), allowed)])
    url = url.set(drivername="postgresql+psycopg")
    patience = {} if "connect_timeout" in url.query else {"connect_timeout": NO_ANSWER}
    return sa.create_engine(url, connect_args=patience, pool_pre_ping=True, pool_size=8, max_overflow=4)


def _file(path: Path) -> sa.Engine:
    refuse_network(path)
    if not path.resolve().parent.is_dir():
        raise FileFault(
            str(path), [Fault("the database", "no such folder", "a path in a folder that is there")]
        )
    engine = sa.create_engine(f"sqlite:///{path}", connect_args={"timeout": PATIENCE / 1000})
    sa.event.listen(engine, "connect", _as_log)
    sa.event.listen(engine, "begin", _begin)
    return engine


def _as_log(connection: Any, _record: Any) -> None:
    """Write ahead: what was acknowledged outlasts a killed process.

    Flushing each commit to the disk would cost a room its speed. So that is done every few seconds
    (`Store.flush`), and pages keep what they sent: after a power cut they send again what the disk lacks.
    """
    connection.isolation_level = None  # transactions are begun below, not guessed by the driver
    wanted = ("journal_mode=WAL", "synchronous=NORMAL", "foreign_keys=ON", f"busy_timeout={PATIENCE}")
    try:
        for pragma in wanted:
            connection.execute(f"PRAGMA {pragma}").close()
    except Exception:
        connection.close()  # nobody else does, where a file is no database
        raise


def _begin(connection: sa.Connection) -> None:
    """Take the lock at once where one means to write: a reader that turns writer may be refused."""
    writes = connection.get_execution_options().get("writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def _let_go_if_refused(engine: sa.Engine) -> Iterator[None]:
    """Let go of a database that cannot be used: it may be moved away then, even where open files stay put."""
    try:
        yield
    except Exception:
        engine.dispose()
        raise


def _prepare(engine: sa.Engine, shown: str) -> None:
    """Make the tables where there are none, and refuse those of a newer version."""
    with engine.execution_options(writes=True).begin() as connection:
        if engine.dialect.name == "postgresql":  # two servers may start at once
            connection.execute(sa.text("SELECT pg_advisory_xact_lock(2046871)"))
        if not sa.inspect(connection).has_table(settings.name):
            metadata.create_all(connection)
            rows = [
                {"name": "schema", "value": str(SCHEMA)},
                {"name": "secret", "value": secrets.token_hex(32)},
            ]
            connection.execute(settings.insert(), rows)
        version = _version(connection)
        if version < SCHEMA:
            _upgrade(connection)
    if version > SCHEMA:
        allowed = f"version {SCHEMA} or older: update zonelib on this machine"
        raise FileFault(shown, [Fault("the database", f"version {version}", allowed)])


def _version(connection: sa.Connection) -> int:
    query = sa.select(settings.c.value).where(settings.c.name == "schema")
    return int(connection.execute(query).scalar_one())


def _upgrade(connection: sa.Connection) -> None:
    """Bring version 1 up to date: it kept results by seat, and they can be marked again."""
    results.drop(connection)
    results.create(connection)
    connection.execute(settings.update().where(settings.c.name == "schema").values(value=str(SCHEMA)))
