"""``zonelib quiz``: make a quiz, open and close it, mark it, release its results, verify its log."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from zonelib.cli.quiz_making import new
from zonelib.cli.quiz_places import course_place, database_place, opened

__all__ = ["command"]


@click.group("quiz")
def command() -> None:
    """Make, open, close, mark, release and verify a timed quiz, or homework on the server."""


command.add_command(new)


def _placed(name: str, words: str) -> Callable[[Callable[..., None]], click.Command]:
    """Return what makes a command on one sitting."""

    def make(action: Callable[..., None]) -> click.Command:
        with_places = course_place(database_place(action))
        made: click.Command = command.command(name, help=words)(click.argument("name")(with_places))
        return made

    return make


@_placed("open", "Let candidates begin; after a close, let them go on.")
def open_quiz(name: str, *, course: Path, database: str | None) -> None:
    """Open a sitting."""
    from zonelib.desk.server.running import open_sitting

    _act(open_sitting, name, course, database)
    click.echo(f"{name} is open. Each candidate's time starts when they press Start.")


@_placed("close", "End it for everyone, and seal the log.")
def close_quiz(name: str, *, course: Path, database: str | None) -> None:
    """Close a sitting."""
    from zonelib.desk.server.running import close_sitting

    seal = _act(close_sitting, name, course, database)
    click.echo(f"{name} is closed. What was saved counts. Next: zonelib quiz mark {name} --out marked")
    click.echo(f"Seal of the log, to be written down: {seal}")


@_placed("release", "Show candidates their results, with the reasons.")
def release_quiz(name: str, *, course: Path, database: str | None) -> None:
    """Release a sitting's results."""
    from zonelib.desk.server.running import release_sitting

    _act(release_sitting, name, course, database)
    click.echo(f"{name} is released. Candidates see marks and reasons when they sign in with their code.")


@_placed("code", "Give a candidate who lost the slip a new code.")
@click.argument("candidate")
def renew_code(name: str, *, candidate: str, course: Path, database: str | None) -> None:
    """Give a seat a new code."""
    from zonelib.desk.server import making
    from zonelib.desk.server.running import sitting_named

    with opened(course, database) as (store, now), store.writing() as connection:
        sitting_named(connection, name)
        code = making.renew_code(connection, name, candidate, secret=store.secret, now=now)
    click.echo(f"{candidate}: {code}. The code on the old slip no longer works.")


@_placed("mark", "Mark every seat's stored answers, as zonelib mark does.")
@click.option("--out", required=True, type=click.Path(path_type=Path), help="Folder for the results.")
def mark_quiz(name: str, *, course: Path, database: str | None, out: Path) -> None:
    """Mark a sitting."""
    from zonelib.cli.quiz_marking import mark_sitting

    mark_sitting(name, course, database, out=out)


@_placed("verify", "Check that no line of the log was changed or taken out.")
@click.option("--seal", metavar="HASH", help="The seal that closing printed: the log must still hold it.")
def verify_quiz(name: str, *, course: Path, database: str | None, seal: str | None) -> None:
    """Verify a sitting's log."""
    from zonelib.cli.quiz_marking import verify_log

    verify_log(name, course, database, seal=seal)


def _act(action: Callable[..., Any], name: str, course: Path, database: str | None) -> Any:
    with opened(course, database) as (store, now), store.writing() as connection:
        return action(connection, name, now=now, actor="tutor")
