"""``zonelib exercise check`` and ``preview``: is an exercise in order, and what do its answers earn."""

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from zonelib.cli.course import course_option
from zonelib.cli.pictures import known_ending, write_pictures
from zonelib.cli.report import show_faults, show_list
from zonelib.cli.solving import solver_doubts
from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.kinds.choose.marking import choices
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.messages import marks
from zonelib.exercise.model import Exercise
from zonelib.exercise.report import marked_scenes
from zonelib.exercise.trial import Trial, doubts, lost, trials
from zonelib.rules.course import course_for
from zonelib.site.faults import FileFault

__all__ = ["check", "frozen_exercise", "preview"]

QUESTION = "question"
MODEL = "model"


@click.command("check")
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@course_option
def check(files: tuple[str, ...], *, course_file: Path | None) -> None:
    """Check each exercise FILE, or exercise of the bank by its bare name: every fault is told at once.

    The exit status is 0 if all are in order, 1 if an answer does not earn what its file says, 2 if any cannot
    be used.
    """
    sys.exit(max(_check(name, course_file) for name in files))


def _check(name: str, course_file: Path | None) -> int:
    try:
        exercise, bundle = frozen_exercise(name, course_file)
        amiss = list(solver_doubts(name, exercise, course_file))
    except FileFault as fault:
        show_faults(fault)
        return 2
    tried = trials(exercise, bundle)
    amiss = [*doubts(exercise, tried), *amiss]
    points, count = marks(tried[0].result.points), len(exercise.wrong)
    state = "look at this:" if amiss else f"in order, {points} marks, {count} answers that lose marks."
    show_list(f"{name} ({exercise.kind}): {state}", amiss)
    return 1 if amiss else 0


def frozen_exercise(name: str, course_file: Path | None) -> tuple[Exercise, Bundle]:
    """Return an exercise by its path or its name in the bank, and its bundle under a course."""
    path = exercise_path(name)
    here = path.parent if path == Path(name) else Path()  # the bank lies in no course
    exercise = read_exercise(path)
    return exercise, freeze(exercise, folder=path.parent, course=course_for(here, course_file))


@click.command("preview")
@click.argument("file", metavar="FILE")
@click.option("--out", type=click.Path(path_type=Path), help="Draw a picture: .png, .svg or .pdf.")
@click.option(
    "--show",
    default=MODEL,
    show_default=True,
    metavar="WHICH",
    help="What to draw: question, model, or the number of a wrong answer.",
)
@course_option
def preview(file: str, *, out: Path | None, show: str, course_file: Path | None) -> None:  # fmt: skip
    """Try the exercise FILE: what its model answer, an empty one and each wrong one earn, with the reasons.

    The exit status is as of `zonelib exercise check`.
    """
    exercise, bundle = frozen_exercise(file, course_file)
    tried = trials(exercise, bundle)
    show_list(f"{exercise.id} ({exercise.kind}): {exercise.title}", _asked(bundle))
    for one in tried:
        show_list(_earned(one), lost(one.result) if one.result.status == "marked" else [one.result.note])
    if out:
        known_ending(out)
        for path in write_pictures(_scenes(bundle, tried, show), out):
            click.echo(f"Wrote {path}")
    amiss = list(doubts(exercise, tried))
    show_list(_closing(tried, amiss), [] if _off(tried) else amiss)
    sys.exit(1 if amiss else 0)


def _off(tried: tuple[Trial, ...]) -> list[str]:
    return [one.name for one in tried if not one.as_stated]


def _closing(tried: tuple[Trial, ...], amiss: list[str]) -> str:
    if off := _off(tried):
        return f"Other marks than the file says: {', '.join(off)}."
    return "Look at this:" if amiss else "All answers earn what the file says."


def _asked(bundle: Bundle) -> Iterator[str]:
    """Yield what marks are given for, and the choices in the order in which they are shown."""
    yield from (f"{marks(rule.marks)} for: {rule.words}" for rule in bundle.criteria)
    if bundle.exercise.kind == "choose":
        yield from (f"Choice {one.id}: {one.words}" for one in choices(bundle))


def _earned(one: Trial) -> str:
    earned = f"{one.name}: {marks(one.result.score)} of {marks(one.result.points)} marks"
    return f"{earned}{_differs(one)}. {one.words}".strip()


def _differs(one: Trial) -> str:
    """Return what the file says instead, and for a typical answer what to write there."""
    if one.as_stated:
        return ""
    write = f"; if this is fair, write marks = {one.to_state:g}" if one.words else ""
    return f", where the file says {marks(one.stated or 0.0)}{write}"


def _scenes(bundle: Bundle, tried: tuple[Trial, ...], show: str) -> tuple[Scene, ...]:
    answers = {MODEL: tried[0], **{str(n): one for n, one in enumerate(tried[2:], start=1)}}
    if show != QUESTION and show not in answers:
        allowed = ", ".join((QUESTION, *answers))
        raise click.UsageError(f'--show: found "{show}"; allowed: {allowed}.')
    if show == QUESTION:
        scenes = tuple(bundle.kind.blank(bundle))
    else:
        scenes = marked_scenes(bundle, answers[show].result)
    if not scenes:
        raise click.UsageError("--out: this exercise has nothing to draw there. Leave --out away.")
    return scenes
