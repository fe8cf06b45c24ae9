"""``zonelib exercise misconceptions``: what an exercise can show of what somebody has misunderstood."""

from collections.abc import Iterator, Mapping
from pathlib import Path

import click

from zonelib.cli.course import course_option
from zonelib.cli.report import show_list
from zonelib.cli.trying import frozen_exercise
from zonelib.coach.diagnosis.lens import Lens
from zonelib.coach.diagnosis.misconception import library
from zonelib.coach.diagnosis.telling import told_apart, typical_answers
from zonelib.rules.words import listed

__all__ = ["misconceptions"]


@click.command("misconceptions")
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@course_option
def misconceptions(files: tuple[str, ...], *, course_file: Path | None) -> None:
    """List which misconceptions the typical answers of an exercise FILE show, and which look the same.

    A misconception shows in an answer that loses marks and would be right if the rules were so.
    """
    for name in files:
        exercise, bundle = frozen_exercise(name, course_file)
        lens = Lens(bundle)
        told = told_apart(lens, typical_answers(lens, exercise))
        heading = "misconceptions its typical answers show" if told else "its typical answers show none"
        show_list(f"{exercise.id}: {heading}", _lines(told))


def _lines(told: Mapping[str, frozenset[int]]) -> Iterator[str]:
    for name, answers in told.items():
        numbers = listed([str(at + 1) for at in sorted(answers)])
        alike = [other for other, those in told.items() if those == answers and other != name]
        same = f" Not to be told from {listed(alike)} here." if alike else ""
        yield f"{name}, by answer {numbers}: {library()[name].words}{same}"
