"""What the solver says of an exercise file: its shortest run, and the rooms that are made of it."""

from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import exercise_path
from zonelib.exercise.model import Exercise
from zonelib.rules.course import course_for

__all__ = ["solver_doubts"]

UNSOLVED = "The shortest run and [variants] are not checked: this needs zonelib[workbook] to be installed."


def solver_doubts(name: str, exercise: Exercise, course_file: Path | None) -> Iterator[str]:
    """Yield what a tutor should look at in the length that a file states, and in its table ``[variants]``.

    Raises
    ------
    FileFault
        If the table cannot be used.
    """
    if exercise.kind != "route" and exercise.variants is None:
        return
    if find_spec("scipy") is None:
        yield UNSOLVED
        return
    folder = exercise_path(name).parent
    yield from _length(exercise, freeze(exercise, folder=folder))
    if exercise.variants is not None:
        yield from _variants(exercise, folder, course_file)


def _length(exercise: Exercise, bundle: Bundle) -> Iterator[str]:
    from zonelib.coach.shortest import length_doubts  # scipy takes a while: only routes wait for it

    yield from length_doubts(exercise, bundle)


def _variants(exercise: Exercise, folder: Path, course_file: Path | None) -> Iterator[str]:
    from zonelib.coach.variants.checking import must_vary, variant_doubts
    from zonelib.coach.variants.vary import family_of

    family = family_of(exercise, folder=folder, course=course_for(Path(), course_file))
    yield from variant_doubts(family, must_vary(family))
