"""``zonelib wheelhouse``: everything for an install without a network, in one zip."""

import importlib.util
import sys
from pathlib import Path

import click

from zonelib.desk.wheelhouse import Target, wheelhouse

__all__ = ["command"]

MISSING = """The package "packaging" is not installed here, and this needs it. To install it, run:
  {python} -m pip install "zonelib[workbook]"
Then run this command again."""

EXTRAS = ("none", "workbook", "nbgrader", "hub", "postgresql", "cluster")


@click.command("wheelhouse")
@click.option(
    "--out", required=True, type=click.Path(dir_okay=False, path_type=Path), help="The zip to write."
)
@click.option(
    "--extras",
    type=click.Choice(EXTRAS),
    multiple=True,
    default=["workbook"],
    show_default=True,
    help="What to take along beside the rules and commands.",
)
@click.option(
    "--platform",
    "platforms",
    multiple=True,
    metavar="TAG",
    help="For which computers, such as win_amd64; by default such as this one. May be given again.",
)
@click.option(
    "--python", default="", metavar="VERSION", help="For which Python, such as 3.12; by default this one."
)
@click.option(
    "--repository",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    default=".",
    help="Copy of the repository of zonelib; by default this folder.",
)
def command(
    out: Path, *, extras: tuple[str, ...], platforms: tuple[str, ...], python: str, repository: Path
) -> None:
    """Get every package that zonelib needs, in the versions it was tried with, for an install elsewhere.

    This needs a network; the install from the zip does not. docs/college-computers.md tells how.
    """
    if importlib.util.find_spec("packaging") is None:
        raise click.ClickException(MISSING.format(python=sys.executable))
    chosen = [extra for extra in extras if extra != "none"]
    names = wheelhouse(repository, out, extras=chosen, target=Target(platforms, python))
    size = out.stat().st_size / 1e6
    click.echo(f"{out}: {len(names)} packages, {size:,.0f} MB.")
