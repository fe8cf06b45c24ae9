"""What the quiz commands share: where the course and its database lie."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from zonelib.desk.server.store import Store

__all__ = ["course_place", "database_place", "opened"]

Decorator = Callable[[Any], Any]

course_place: Decorator = click.option(
    "--in",
    "course",
    default=".",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="COURSE",
    help="The course's folder; by default the current one.",
)
database_place: Decorator = click.option(
    "--database", metavar="PATH|URL", help="As for zonelib serve; by default a file in the course's folder."
)


@contextmanager
def opened(course: Path, database: str | None) -> "Iterator[tuple[Store, float]]":
    """Give the database and the time; what it refuses is told in words."""
    from zonelib.desk.server.refusal import Refusal
    from zonelib.desk.server.store import open_store

    store = open_store(course, database)
    try:
        yield store, store.time() or time.time()
    except Refusal as refusal:
        raise click.ClickException(refusal.words) from refusal
    finally:
        store.close()
