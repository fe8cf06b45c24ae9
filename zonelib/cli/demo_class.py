"""``zonelib demo-class``: a made-up class to try the desk on."""

from pathlib import Path

import click

from zonelib.desk.demo import demo_class

__all__ = ["command"]

MOST = 100_000


@click.command("demo-class")
@click.argument("folder", metavar="DIR", type=click.Path(file_okay=False, path_type=Path))
@click.option("--trainees", type=click.IntRange(1, MOST), default=30, show_default=True)
@click.option("--seed", type=int, default=1, show_default=True, help="Which class of many.")
def command(folder: Path, *, trainees: int, seed: int) -> None:
    """Make up a class that has handed in ten exercises, to try marking and the report on.

    The class is drawn from the exercises' model answers and typical mistakes. There is no person behind it.
    """
    made = demo_class(folder, trainees=trainees, seed=seed)
    click.echo(f"Class list: {made.class_file}")
    click.echo(f"Handed in: {made.submitted}")
    due = made.due.isoformat()
    rest = f'--due {due} --late "10% per day, at most 50%" --class {made.class_file}'
    click.echo(f"Mark it: zonelib mark {folder} --out {folder / 'marked'} {rest}")
