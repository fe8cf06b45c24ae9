"""Carry changed marks between a folder of results and the sitting they are of, both ways."""

import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from zonelib.desk.linked import Carried, Link
from zonelib.desk.overrides import add_lines, beyond, read_changes
from zonelib.desk.plain import cell
from zonelib.desk.server.changes import changes_of, log_changes
from zonelib.desk.server.events import first_hash
from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.running import sitting_named
from zonelib.desk.server.store import file_of, lasting_name, open_store
from zonelib.site.faults import Fault, FileFault

__all__ = ["carry", "link_to"]


@dataclass(frozen=True)
class _Reached:
    connection: sa.Connection
    sitting: Any
    now: float


def link_to(connection: sa.Connection, sitting: str, *, course: Path, database: str | None) -> Link:
    """Return the note of which sitting a folder's results are; it holds no password."""
    return Link(sitting, lasting_name(course, database), first_hash(connection, sitting))


def carry(folder: Path, link: Link, database: str) -> Carried:
    """Tell the sitting's log of the folder's changes, and the folder of the log's.

    Raises
    ------
    FileFault
        If the folder's own history cannot be read. What the server's data lacks is told as trouble.
    """
    own = [one for one in read_changes(folder) if one.assignment == cell(link.sitting)]
    try:
        with _reached(link, database) as there:
            known = changes_of(there.connection, link.sitting)
            sent = beyond(own, known)
            log_changes(there.connection, link.sitting, sent, now=there.now)
            released = there.sitting.released_at is not None
    except (FileFault, Refusal, SQLAlchemyError) as error:
        return Carried(link, trouble=_why(error))
    brought = beyond(known, own)
    if brought:
        add_lines(folder, brought)
    return Carried(link, released, len(sent), len(brought))


@contextmanager
def _reached(link: Link, database: str) -> Iterator[_Reached]:
    """Give the sitting that the folder is of, held until the block ends.

    Raises
    ------
    FileFault, Refusal, SQLAlchemyError
        If the database is not there or cannot be used, or holds no such sitting or another one.
    """
    path = file_of(database)
    if path is not None and not path.is_file():  # opening would make a new one
        raise FileFault(database, [Fault("the database", "nothing there", "the server's own")])
    with closing(open_store(Path(), database)) as store, store.writing() as connection:
        sitting = sitting_named(connection, link.sitting)
        if first_hash(connection, link.sitting) != link.begins:
            found = f"another sitting of the name {link.sitting}"
            raise FileFault(database, [Fault("the database", found, "the one these results are of")])
        yield _Reached(connection, sitting, store.time() or time.time())


def _why(error: Exception) -> str:
    if isinstance(error, Refusal):
        return error.words
    found = error.orig if isinstance(error, DBAPIError) and error.orig else error
    return str(found).splitlines()[0]
