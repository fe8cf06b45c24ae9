"""``zonelib people``: what is stored of people, and how it is removed."""

from pathlib import Path

import click

from zonelib.desk.people import Removal, removals, remove
from zonelib.site.faults import Fault, FileFault

__all__ = ["command"]

FOLDER = click.Path(path_type=Path)
MOST_TOLD = 200


@click.group("people")
def command() -> None:
    """Remove what is stored of people. docs/data.md tells what that is."""


@command.command("erase")
@click.argument("what", metavar="[CANDIDATE] FOLDER", nargs=-1, required=True)
@click.option("--older-than", "days", type=click.FloatRange(min=0), metavar="DAYS", help="All this old.")
@click.option("--yes", is_flag=True, help="Remove it; without this it is only told.")
def erase(what: tuple[str, ...], *, days: float | None, yes: bool) -> None:
    """Remove one candidate, or all that is older than so many days, from a course or from results.

    What would be removed is told first. Nothing goes before you run the same with --yes.
    """
    candidate, folder = _asked(what, days)
    found = removals(folder, candidate=candidate, older_than=days)
    for one in found[:MOST_TOLD]:
        click.echo(f"- {one.words}")
    if len(found) > MOST_TOLD:
        click.echo(f"- and {len(found) - MOST_TOLD} more")
    _finish(found, folder, yes=yes)


def _asked(what: tuple[str, ...], days: float | None) -> tuple[str, Path]:
    wanted = 1 if days is not None else 2
    if len(what) != wanted:
        allowed = "CANDIDATE FOLDER, or --older-than DAYS FOLDER"
        raise FileFault("the command", [Fault("what to remove", " ".join(what)[:100], allowed)])
    return (what[0] if wanted == 2 else ""), Path(what[-1])  # noqa: PLR2004 - a candidate and a folder


def _finish(found: list[Removal], folder: Path, *, yes: bool) -> None:
    if not found:
        click.echo(f"There is nothing to remove in {folder}.")
    elif yes:
        click.echo(f"Removed: {remove(found)}")
        click.echo("Mark and report again: notes and figures made before may still tell of it.")
    else:
        click.echo(f"This would be removed: {len(found)}. To remove it, run the same with --yes.")
