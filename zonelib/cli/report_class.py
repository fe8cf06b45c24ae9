"""``zonelib report``: what a marked class shows, on one page and in tables."""

from pathlib import Path

import click

from zonelib.desk.report.make import Made, make_report

__all__ = ["command"]


@click.command("report")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the report, if not DIR.")
def command(folder: Path, *, out: Path | None) -> None:
    """Report on a class from what zonelib mark --out has written to DIR.

    It writes report.html, which stands alone and prints well, and its tables as report.ods and as CSV. Marks
    changed with zonelib override count as changed.
    """
    _show(make_report(folder, out=out))


def _show(made: Made) -> None:
    for lesson in made.found.lessons:
        click.echo(f"Teach next: {lesson.title}: {lesson.why}")
    for one in made.found.alike:
        names = ", ".join(row.exercise for row in one.shared)
        click.echo(f"Look at together: {' and '.join(one.trainees)}, {names}.")
    for path in made.written:
        click.echo(path)
