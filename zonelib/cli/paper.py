"""``zonelib paper``: exercises as worksheets to print, with the sheets to mark them by."""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from zonelib.cli.course import course_option
from zonelib.cli.trying import frozen_exercise
from zonelib.desk.classlist import read_class
from zonelib.desk.rooms import rooms_for
from zonelib.draw.paper import Sheet
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.model import Exercise
from zonelib.rules.course import course_for

__all__ = ["command"]

FILE = click.Path(dir_okay=False, path_type=Path)
FOLDER = click.Path(file_okay=False, path_type=Path)

Made = list[tuple[Exercise, Bundle]]


@click.command("paper")
@click.argument("exercises", metavar="EXERCISE...", nargs=-1, required=True)
@click.option("--out", required=True, type=FILE, help="The file to write: a name that ends in .pdf.")
@click.option("--answers", is_flag=True, help="Add the marking sheets: model answers, clauses, mistakes.")
@click.option("--class", "class_file", type=FILE, help="Class list (CSV): one set for each candidate.")
@click.option("--variants", is_flag=True, help="With --class: a room of their own for each candidate.")
@click.option("--assignment", default="homework", show_default=True, help="Whose variants, as in handout.")
@click.option("--course-folder", "home", type=FOLDER, default=".", help="Where the key to the variants is.")
@course_option
def command(
    exercises: tuple[str, ...], *, out: Path, answers: bool, class_file: Path | None, variants: bool,
    assignment: str, home: Path, course_file: Path | None,
) -> None:  # fmt: skip
    """Write worksheets to scale as A4 pages, black and white: question, wall with a grid, form.

    EXERCISE is the name of an exercise that comes with zonelib, or the path of an exercise file. Print at
    full size (100 %): each page has a bar to check that.
    """
    _refuse(out, class_file, variants=variants)
    made = [frozen_exercise(name, course_file) for name in exercises]
    candidates = list(read_class(class_file).names) if class_file else []
    sets = [("", made)] if not candidates else [(one, made) for one in candidates]
    if variants:
        course = course_for(home, course_file)
        rooms = rooms_for(exercises, candidates, home=home, assignment=assignment, course=course)
        sets = [(one, _in_rooms(made, own)) for one, own in rooms]
    _write(out, list(_sheets(sets, made, answers=answers, variants=variants)), made)


def _refuse(out: Path, class_file: Path | None, *, variants: bool) -> None:
    if out.suffix.lower() != ".pdf":
        raise click.UsageError(f'--out: found "{out.name}"; allowed: a name that ends in .pdf.')
    if variants and class_file is None:
        raise click.UsageError(
            "--variants: found no --class; allowed: with a class list, whose rooms they are."
        )


def _in_rooms(made: Made, own: dict[str, tuple[Exercise, str]]) -> Made:
    """Return the exercises, those that vary in a candidate's own room."""
    rooms = {name: (exercise, Bundle(json.loads(text))) for name, (exercise, text) in own.items()}
    return [rooms.get(exercise.id, (exercise, bundle)) for exercise, bundle in made]


def _sheets(
    sets: Sequence[tuple[str, Made]], made: Made, *, answers: bool, variants: bool
) -> Iterator[Sheet]:
    """Yield the worksheets candidate by candidate, then the marking sheets in the same order."""
    from zonelib.exercise.paper import marking_sheet, worksheet

    for holder, own in sets:
        yield from (worksheet(bundle, holder=holder) for _, bundle in own)
    if not answers:
        return
    for holder, own in sets if variants else [("any", made)]:
        yield from (marking_sheet(exercise, bundle, holder=holder) for exercise, bundle in own)


def _write(out: Path, sheets: list[Sheet], made: Made) -> None:
    from zonelib.draw.paper.pages import save_sheets

    try:
        pages = save_sheets(sheets, out, title=", ".join(exercise.title for exercise, _ in made))
    except OSError as error:
        raise click.ClickException(f"{out} cannot be written: {error.strerror}.") from error
    click.echo(f"Wrote {out}: {pages} pages. Print at full size (100 %), then measure the bar: 100 mm.")
    for bundle in {bundle.pack.id: bundle for _, bundle in made}.values():
        click.echo(f"Rules: {bundle.pack.stated_edition}. {bundle.pack.safety.aid}")
