"""``zonelib handout``: give out a homework."""

from pathlib import Path

import click

from zonelib.cli.course import course_lines, course_option
from zonelib.desk.classlist import ClassList, read_class
from zonelib.desk.handout import Handout, Wanted, hand_out
from zonelib.rules.course import course_for

__all__ = ["command"]

PATH = click.Path(path_type=Path)
FOLDER = click.Path(file_okay=False, path_type=Path)


@click.command("handout")
@click.argument("exercises", metavar="EXERCISE...", nargs=-1, required=True)
@click.option("--class", "class_file", type=PATH, help="Class list: a CSV file with candidate[,name].")
@click.option("--out", "home", type=FOLDER, default=".", help="The course's folder; by default this one.")
@click.option("--assignment", default="homework", show_default=True, help="Name of the assignment.")
@click.option("--title", default="Homework", show_default=True, help="The notebook's heading.")
@click.option("--variants", is_flag=True, help="A room of their own for each trainee; makes zips.")
@click.option("--zip", "zips", is_flag=True, help="A zip for each trainee, with the candidate number in it.")
@course_option
def command(
    exercises: tuple[str, ...],
    *,
    class_file: Path | None,
    home: Path,
    assignment: str,
    title: str,
    variants: bool,
    zips: bool,
    course_file: Path | None,
) -> None:
    """Write an assignment into a course: source and release for nbgrader, and zips for the trainees.

    EXERCISE is the name of an exercise that comes with zonelib, or the path of an exercise file. Names of
    trainees stay in the class list: what is given out holds candidate numbers only.
    """
    classlist = read_class(class_file) if class_file else ClassList()
    wanted = Wanted(exercises, assignment, title, classlist, variants, zips)
    course = course_for(home, course_file)
    _tell(hand_out(wanted, home, course=course), wanted)
    for line in course_lines(course):
        click.echo(line)


def _tell(done: Handout, wanted: Wanted) -> None:
    click.echo(f"Source, with model answers, for you alone: {done.source}")
    if done.released:
        click.echo(f"Released, one notebook for all: {done.released}")
    if done.zips:
        click.echo(f"{len(done.zips)} zips, one for each trainee: {done.zips[0].parent}")
    if wanted.variants:
        click.echo("Each trainee has rooms of their own; which is whose stays in the folder variants.")
    if done.known and done.released:
        click.echo(f"For nbgrader's exchange: nbgrader release_assignment {wanted.assignment}")
    if not done.known:
        click.echo("nbgrader is not installed here, so it does not know of this assignment.")
