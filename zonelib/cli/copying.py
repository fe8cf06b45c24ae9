"""``zonelib exercise copy``: begin an exercise of one's own from one of the bank."""

import re
from pathlib import Path

import click

from zonelib.exercise.load import bank_path

__all__ = ["copy"]

VARIANTS = re.compile(r"^\[variants\b.*?(?=^\[+(?!variants)[a-z]|\Z)", re.DOTALL | re.MULTILINE)
"""The tables that make other rooms: they fit the wall they were written for."""

NAME = re.compile(r"[a-zA-Z0-9_\-]{1,60}")


@click.command("copy")
@click.argument("name")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
def copy(name: str, *, file: Path) -> None:
    """Copy the exercise NAME of the bank to FILE, to be changed there. FILE's own name becomes its id."""
    if file.suffix != ".toml" or not NAME.fullmatch(file.stem):
        allowed = "letters, digits, - and _, at most 60, then .toml"
        raise click.UsageError(f'FILE: found "{file.name}"; allowed: {allowed}.')
    if file.exists():
        raise click.UsageError(f'FILE: found "{file}", which is there already; allowed: a new name.')
    text = VARIANTS.sub("", bank_path(name).read_text(encoding="utf-8")).rstrip() + "\n"
    try:
        file.write_text(
            text.replace(f'id = "{name}"', f'id = "{file.stem}"', 1), encoding="utf-8", newline="\n"
        )
    except OSError as error:
        raise click.ClickException(f"{file} cannot be written: {error.strerror}.") from error
    click.echo(f"Written: {file}. Change it, then: zonelib exercise check {file}")
