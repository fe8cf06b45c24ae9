"""``zonelib mark``: mark what a class handed in."""

from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path
from statistics import mean

import click
from rich.console import Console
from rich.progress import track
from rich.table import Table

from zonelib.desk.fill import fill_notebooks
from zonelib.desk.marked import Marked
from zonelib.desk.run import Outcome, mark_folder
from zonelib.desk.submissions import Submission

__all__ = ["command"]

MOST_TROUBLES = 20


@click.command("mark")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--out", required=True, type=click.Path(path_type=Path), help="Folder for the results.")
@click.option("--bundles", type=click.Path(path_type=Path), help="Folder of the released bundles.")
@click.option(
    "--fill", is_flag=True, help="Put the released notebook where a submission to nbgrader has none."
)
def command(folder: Path, *, out: Path, bundles: Path | None, fill: bool) -> None:
    """Mark what a class handed in, without running any of it.

    FOLDER holds a folder for each trainee, hand-in files, or both; a course's folder will do. Results are
    marks.csv, findings.jsonl and one feedback page for each trainee.
    """
    outcome = mark_folder(folder, out, bundles=bundles, watch=_watch)
    _show(outcome, out)
    if fill:
        for path in fill_notebooks(folder):
            click.echo(f"Filled in: {path}")


def _watch(groups: Iterable[list[Submission]], count: int) -> Iterable[list[Submission]]:
    console = Console(stderr=True)
    return track(groups, "Marking", total=count, console=console, disable=not console.is_terminal)


def _show(outcome: Outcome, out: Path) -> None:
    click.echo(f"Bundles: {outcome.released.folder}")
    Console().print(_summary(outcome.rows))
    shown = outcome.troubles[:MOST_TROUBLES]
    for line in shown:
        click.echo(f"- {line}")
    if len(outcome.troubles) > len(shown):
        click.echo(f"- and {len(outcome.troubles) - len(shown)} more; all are in {out / 'troubles.txt'}")
    for edition in dict.fromkeys(one.bundle.pack.stated_edition for one in outcome.rows):
        click.echo(f"Rules: {edition}.")
    trainees = len({one.trainee for one in outcome.rows})
    click.echo(f"{trainees} trainees, {len(outcome.rows)} marks: {out / 'marks.csv'}, {out / 'feedback'}")


def _summary(rows: Iterable[Marked]) -> Table:
    by_exercise: dict[tuple[str, str], list[Marked]] = defaultdict(list)
    for one in rows:
        by_exercise[one.assignment, one.exercise].append(one)
    table = Table("assignment", "exercise", "answers", "not judged", "mean", "out of")
    for (assignment, exercise), each in by_exercise.items():
        unjudged = sum(one.result.status != "marked" for one in each)
        mean_score = f"{mean(one.result.score for one in each):.2f}"
        table.add_row(
            assignment, exercise, str(len(each)), str(unjudged), mean_score, f"{each[0].result.points:g}"
        )
    return table
