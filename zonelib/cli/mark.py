"""``zonelib mark``: mark what a class handed in."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.progress import track
from rich.table import Table

from zonelib.desk.classlist import read_class
from zonelib.desk.cluster import by_cluster
from zonelib.desk.fill import fill_notebooks
from zonelib.desk.gradebook import write_gradebook
from zonelib.desk.late import LateRule, read_late_rule
from zonelib.desk.overrides import read_changes
from zonelib.desk.run import Outcome, mark_folder
from zonelib.desk.spread import Spread, as_pays, by_processes
from zonelib.desk.totals import Totals
from zonelib.desk.work import Done
from zonelib.site.faults import Fault, FileFault

__all__ = ["command"]

MOST_TROUBLES = 20
MOST_JOBS = 64
PATH = click.Path(path_type=Path)


@click.command("mark")
@click.argument("folder", metavar="SUBMITTED", type=PATH)
@click.option("--out", required=True, type=PATH, help="Folder for the results.")
@click.option("--bundles", type=PATH, help="Folder of the released bundles.")
@click.option("--assignment", "only", multiple=True, metavar="NAME", help="Mark this assignment only.")
@click.option("--class", "class_file", type=PATH, help="Class list: nobody in it is left out.")
@click.option("--due", metavar="TIME", help="When work was due, such as 2026-11-27T17:00+00:00.")
@click.option("--late", metavar="RULE", help='What late work loses, such as "10% per day, at most 50%".')
@click.option(
    "--jobs",
    type=click.IntRange(1, MOST_JOBS),
    help="Processes to mark with; by default one for each 500 trainees, as far as there are cores.",
)
@click.option("--scheduler", default="", metavar="ADDRESS", help="Dask scheduler whose workers mark.")
@click.option("--afresh", is_flag=True, help="Mark again what has not changed since the last run.")
@click.option("--no-ideas", is_flag=True, help="Marks and reasons only: no look for what is misunderstood.")
@click.option("--gradebook", is_flag=True, help="Write the marks into nbgrader's gradebook as well.")
@click.option("--database", default="", metavar="URL", help="Gradebook to write to, if not the course's.")
@click.option(
    "--fill", is_flag=True, help="Put the released notebook where a submission to nbgrader has none."
)
def command(folder: Path, **options: Any) -> None:
    """Mark what a class handed in, without running any of it.

    SUBMITTED holds a folder for each trainee, hand-in files, or both, or is a zip of that; a course's folder
    will do. Results are marks.csv, findings.jsonl and one feedback page for each trainee. A run that was
    stopped goes on where it was.
    """
    _mark(folder, **options)


def _mark(
    folder: Path,
    *,
    out: Path,
    bundles: Path | None,
    only: tuple[str, ...],
    class_file: Path | None,
    due: str | None,
    late: str | None,
    jobs: int | None,
    scheduler: str,
    afresh: bool,
    no_ideas: bool,
    gradebook: bool,
    database: str,
    fill: bool,
) -> None:
    outcome = mark_folder(
        folder, out, bundles=bundles, only=only, late=_late(due, late), afresh=afresh, ideas=not no_ideas,
        classlist=read_class(class_file) if class_file else None,
        spread=_spread(jobs, scheduler), watch=_watch,
    )  # fmt: skip
    _show(outcome, out)
    if gradebook or database:
        _write_gradebook(outcome, database)
    for path in fill_notebooks(folder) if fill else ():
        click.echo(f"Filled in: {path}")


def _spread(jobs: int | None, scheduler: str) -> Spread:
    if scheduler:
        return by_cluster(scheduler)
    return by_processes(jobs) if jobs else as_pays


def _late(due: str | None, rule: str | None) -> LateRule | None:
    if rule and not due:
        raise FileFault("the command", [Fault("--late", "no time that work is due", "--due TIME as well")])
    return read_late_rule(due, rule or "") if due else None


def _write_gradebook(outcome: Outcome, database: str) -> None:
    history = read_changes(outcome.out)
    written = write_gradebook(outcome.rows(), outcome.released, database=database, history=history)
    click.echo(f"Gradebook: {written.scores} marks of {written.trainees} trainees in {written.database}")


def _watch(done: Iterable[Done], count: int) -> Iterable[Done]:
    console = Console(stderr=True)
    return track(done, "Marking", total=count, console=console, disable=not console.is_terminal)


def _show(outcome: Outcome, out: Path) -> None:
    click.echo(f"Bundles: {outcome.released.folder}")
    Console().print(_summary(outcome.totals))
    troubles = outcome.troubles
    for line in troubles[:MOST_TROUBLES]:
        click.echo(f"- {line}")
    if len(troubles) > MOST_TROUBLES:
        click.echo(f"- and {len(troubles) - MOST_TROUBLES} more; all are in {out / 'troubles.txt'}")
    for edition in outcome.totals.editions:
        click.echo(f"Rules: {edition}.")
    if outcome.reused:
        click.echo(f"Kept from an earlier run, since nothing has changed: {outcome.reused}")
    trainees, rows = len(outcome.trainees), outcome.totals.rows
    click.echo(f"{trainees} trainees, {rows} marks: {out / 'marks.csv'}, {out / 'feedback'}")


def _summary(totals: Totals) -> Table:
    table = Table("assignment", "exercise", "answers", "not judged", "mean", "out of")
    for (assignment, exercise), one in totals.exercises.items():
        counts = str(one.answers), str(one.unjudged)
        table.add_row(assignment, exercise, *counts, f"{one.mean:.2f}", f"{one.points:g}")
    return table
