"""The command line: each command in its own module, loaded when it is called."""

import importlib
import sys
import warnings

import click

from zonelib.cli.missing import stand_in, told
from zonelib.site.faults import FileFault
from zonelib.site.upgrades import OlderFile

__all__ = ["main"]

_COMMANDS = {
    "check": "zonelib.cli.check",
    "zones": "zonelib.cli.zones",
    "paper": "zonelib.cli.paper",
    "picture": "zonelib.cli.picture",
    "doctor": "zonelib.cli.doctor",
    "exercise": "zonelib.cli.exercise",
    "handout": "zonelib.cli.handout",
    "mark": "zonelib.cli.mark",
    "demo-class": "zonelib.cli.demo_class",
    "people": "zonelib.cli.people",
    "open": "zonelib.cli.open",
    "override": "zonelib.cli.override",
    "remark": "zonelib.cli.remark",
    "report": "zonelib.cli.report_class",
    "schema": "zonelib.cli.schema",
    "serve": "zonelib.cli.serve",
    "quiz": "zonelib.cli.quiz",
    "wheelhouse": "zonelib.cli.wheelhouse",
}


class _LazyGroup(click.Group):
    """Loads a command's module only when that command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of all commands."""
        del ctx  # click hands it over; the names do not depend on it
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command, or None where there is none of that name."""
        del ctx
        if cmd_name not in _COMMANDS:
            return None
        try:
            command: click.Command = importlib.import_module(_COMMANDS[cmd_name]).command
        except ModuleNotFoundError as error:
            return stand_in(cmd_name, error)
        return command


@click.group(cls=_LazyGroup)
@click.version_option(package_name="zonelib")
def group() -> None:
    """Where concealed cables may run: check a wall, draw it, practise, and mark a class."""


def main() -> None:
    """Run the command line; a file's faults are printed, never a traceback."""
    shown = warnings.showwarning
    warnings.showwarning = lambda *told: _note(told[0]) if issubclass(told[1], OlderFile) else shown(*told)
    try:
        group(prog_name="zonelib")
    except FileFault as fault:
        click.echo(fault, err=True)
        sys.exit(2)
    except ModuleNotFoundError as error:
        click.echo(told(error), err=True)
        sys.exit(2)


def _note(words: object) -> None:
    """Print that an older file was read, beside whatever a command prints."""
    click.echo(f"Note: {words}", err=True)
