"""``zonelib override``: change a mark, with the reason."""

from pathlib import Path

import click

from zonelib.desk.overriding import Asked, change_mark
from zonelib.exercise.messages import marks

__all__ = ["command"]


@click.command("override")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.argument("trainee")
@click.argument("exercise")
@click.argument("score", type=float, required=False)
@click.option("--reason", default="", help="Why, in a few words. The trainee reads it.")
@click.option("--by", default="tutor", show_default=True, help="In which role; not a name.")
@click.option("--assignment", default="", help="Which one, where two ask the exercise.")
@click.option("--remove", is_flag=True, help="Take the change back: the program's mark counts again.")
def command(
    folder: Path, trainee: str, exercise: str, score: float | None, *, reason: str, by: str, assignment: str,
    remove: bool,
) -> None:  # fmt: skip
    """Change the mark that TRAINEE has for EXERCISE to SCORE, in what zonelib mark --out has written to DIR.

    The change is kept in a file of its own, overrides.csv, and the program's mark stays as it is. Marking
    again never undoes it. Feedback page, report and gradebook show the changed mark with its reason.
    """
    if remove == (score is not None):
        raise click.UsageError("Give either a SCORE or --remove.")
    change = change_mark(folder, Asked(trainee, exercise, assignment), score=score, reason=reason, by=by)
    told = "taken back" if change.score is None else f"is now {marks(change.score)}"
    click.echo(f"{change.trainee}, {change.exercise}: the program gave {marks(change.computed)}; {told}.")
