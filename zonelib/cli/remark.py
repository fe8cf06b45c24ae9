"""``zonelib remark``: mark a class again under another reading or a mended exercise."""

from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from zonelib.desk.classlist import read_class
from zonelib.desk.late import read_late_rule
from zonelib.desk.plain import plain
from zonelib.desk.remark import Plan, apply_plan, moved_text, tried_plan
from zonelib.desk.reread import reading_of
from zonelib.desk.tables import write_text
from zonelib.exercise.messages import marks

__all__ = ["command"]

PATH = click.Path(path_type=Path)


@click.command("remark")
@click.argument("submitted", type=PATH)
@click.option("--against", required=True, metavar="DIR", type=PATH, help="What zonelib mark --out wrote.")
@click.option("--reading", "readings", multiple=True, metavar="NAME=VALUE", help="Another reading.")
@click.option("--bundles", type=PATH, help="Folder of bundles of mended exercises.")
@click.option("--class", "class_file", type=PATH, help="Class list, if the class was marked with one.")
@click.option("--due", metavar="TIME", help="When work was due, if lateness was counted.")
@click.option("--late", default="", metavar="RULE", help="What late work loses, as it was counted.")
@click.option("--csv", "csv_file", type=PATH, help="Write the table of changes to this file.")
@click.option("--apply", is_flag=True, help="Mark in earnest; without it nothing is changed.")
def command(submitted: Path, **options: Any) -> None:
    """Show whose marks change, and by how much, if SUBMITTED is marked again otherwise.

    Answers given to the exercises as they were then count for those that take their place. Marks that a tutor
    changed stay. With --apply the results in DIR are written anew, and the table is kept there as remark.csv.
    """
    _remark(submitted, **options)


def _remark(
    submitted: Path,
    *,
    against: Path,
    readings: tuple[str, ...],
    bundles: Path | None,
    class_file: Path | None,
    due: str | None,
    late: str,
    csv_file: Path | None,
    apply: bool,
) -> None:
    if not readings and bundles is None:
        raise click.UsageError("Give --reading NAME=VALUE, --bundles FOLDER, or both.")
    how = {
        "late": read_late_rule(due, late) if due else None,
        "classlist": read_class(class_file) if class_file else None,
    }
    chosen = dict(map(reading_of, readings))
    plan = tried_plan(submitted, against, readings=chosen, bundles=bundles, **how)
    _show(plan)
    if csv_file:
        click.echo(write_text(csv_file, moved_text(plan.moved)))
    if apply:
        apply_plan(plan, submitted, against, **how)
        click.echo(
            f"Marked again: {against}. To mark more of this class: --bundles {against / 'renewed/bundles'}"
        )
    else:
        click.echo("Nothing is changed yet. To mark in earnest, add --apply.")


def _show(plan: Plan) -> None:
    for doubt in plan.doubts:
        click.echo(f"Look at this first: {doubt}.")
    if plan.moved:
        table = Table("trainee", "exercise", "before", "after", "by", "note")
        for one in plan.moved:
            shown = ("" if mark is None else marks(mark) for mark in (one.before, one.after))
            table.add_row(plain(one.trainee), one.exercise, *shown, f"{one.by:+g}", one.note)
        Console().print(table)
    trainees = len({one.trainee for one in plan.moved})
    click.echo(f"{len(plan.moved)} of {plan.rows} marks change, for {trainees} trainees.")
