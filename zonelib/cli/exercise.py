"""``zonelib exercise``: make what a trainee works on from exercise files."""

from pathlib import Path

import click

from zonelib.cli.copying import copy
from zonelib.cli.course import course_lines, course_option
from zonelib.cli.misconceptions import misconceptions
from zonelib.cli.trying import check, preview
from zonelib.cli.variants import variants
from zonelib.exercise.notebook import renew_homework, write_homework
from zonelib.rules.course import Course, course_for

__all__ = ["command"]

FOLDER = click.Path(file_okay=False, path_type=Path)


@click.group("exercise")
def command() -> None:
    """Check and try exercises, and make homework from them."""


command.add_command(copy)
command.add_command(check)
command.add_command(preview)
command.add_command(misconceptions)
command.add_command(variants)


@command.command("notebook")
@click.argument("exercises", metavar="EXERCISE...", nargs=-1, required=True)
@click.option("--out", "folder", type=FOLDER, required=True, help="Folder to write to.")
@click.option("--title", default="Homework", show_default=True, help="The notebook's heading.")
@course_option
def notebook(exercises: tuple[str, ...], *, folder: Path, title: str, course_file: Path | None) -> None:
    """Write a notebook with model answers, and the bundles that mark it, for nbgrader to release.

    EXERCISE is the name of an exercise that comes with zonelib, or the path of an exercise file.
    """
    course = course_for(folder, course_file)
    for path in write_homework(exercises, folder, title=title, course=course):
        click.echo(f"Written: {path}")
    _tell(course)


@command.command("renew")
@click.argument("folders", metavar="FOLDER...", nargs=-1, required=True, type=FOLDER)
@course_option
def renew(folders: tuple[Path, ...], *, course_file: Path | None) -> None:
    """Write homework again after its exercises or the rules have changed; FOLDER is such as solutions/hw1."""
    for folder in folders:
        course = course_for(folder, course_file)
        for path in renew_homework(folder, course=course):
            click.echo(f"Written: {path}")
        _tell(course)


def _tell(course: Course | None) -> None:
    for line in course_lines(course):
        click.echo(line)
