"""``zonelib override``: change a mark, with the reason."""

import shlex
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from zonelib.desk.linked import Carried
from zonelib.desk.overriding import Asked, change_mark
from zonelib.exercise.messages import marks

__all__ = ["command"]


@click.command("override")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.argument("trainee")
@click.argument("exercise")
@click.argument("score", type=float, required=False)
@click.option("--reason", default="", help="Why, in a few words. The trainee reads it.")
@click.option("--by", default="tutor", show_default=True, help="In which role; not a name.")
@click.option("--assignment", default="", help="Which one, where two ask the exercise.")
@click.option("--database", metavar="PATH|URL", help="The server's, where the one noted in DIR does not do.")
@click.option("--remove", is_flag=True, help="Take the change back: the program's mark counts again.")
def command(
    folder: Path, trainee: str, exercise: str, score: float | None, *, reason: str, by: str, assignment: str,
    database: str | None, remove: bool,
) -> None:  # fmt: skip
    """Change the mark that TRAINEE has for EXERCISE to SCORE, in what zonelib mark --out has written to DIR.

    The change is kept in a file of its own, overrides.csv, and the program's mark stays as it is. Marking
    again never undoes it. Feedback page, report and gradebook show the changed mark with its reason. Where
    zonelib quiz mark wrote DIR, so does the candidate's page on the server, and its log holds the change.
    """
    if remove == (score is not None):
        raise click.UsageError("Give either a SCORE or --remove.")
    asked = Asked(trainee, exercise, assignment)
    changed = change_mark(folder, asked, score=score, reason=reason, by=by, database=database)
    change = changed.change
    told = "taken back" if change.score is None else f"is now {marks(change.score)}"
    click.echo(f"{change.trainee}, {change.exercise}: the program gave {marks(change.computed)}; {told}.")
    if changed.server:
        for line in _of_server(changed.server, folder):
            click.echo(line, err=bool(changed.server.trouble))
        sys.exit(1 if changed.server.trouble else 0)


def _of_server(server: Carried, folder: Path) -> Iterator[str]:
    """Yield what candidates see on the server."""
    sitting = server.link.sitting
    if server.trouble:
        words = ("zonelib", "quiz", "mark", sitting, "--out", str(folder), "--database", server.link.database)
        yield f"The change is kept in {folder}. It did not reach the server: {server.trouble}"
        yield "Candidates see there what they saw before, until you run this, with the database's own place:"
        yield f"  {_to_be_typed(words)}"
    elif server.released:
        yield "The candidate's page on the server shows this now."
    else:
        yield f"The server has it. Candidates see their marks once you run: zonelib quiz release {sitting}"


def _to_be_typed(words: Sequence[str]) -> str:
    """Return a command as this system's command line takes it."""
    return subprocess.list2cmdline(words) if sys.platform == "win32" else shlex.join(words)
