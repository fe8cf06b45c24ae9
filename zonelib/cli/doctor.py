"""``zonelib doctor``: is this computer ready for the workbook."""

import sys
from pathlib import Path

import click

from zonelib.desk.doctor import Computer, examine

__all__ = ["command"]


@click.command("doctor")
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
def command(folder: Path | None) -> None:
    """Look at this computer, and tell for each thing what was found and what to do.

    FOLDER is where the workbook is to be used; by default this one. The exit status is 0 if all is in order,
    else 1.
    """
    computer = Computer(folder=(folder or Path.cwd()).resolve())
    amiss = 0
    for sign in examine(computer):
        click.echo(f"{'in order' if sign.well else 'LOOK    '}  {sign.name}: {sign.found}.")
        if not sign.well:
            amiss += 1
            click.echo(f"          {sign.remedy}")
    told = "All is in order." if not amiss else f"{amiss} thing{'s' if amiss > 1 else ''} to look at."
    click.echo(told)
    sys.exit(1 if amiss else 0)
