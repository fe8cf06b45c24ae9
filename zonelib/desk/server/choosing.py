"""Find the exercises of a sitting: of the course, of the library, or a file."""

import secrets
from collections.abc import Sequence
from pathlib import Path

from zonelib.desk.released import find_bundles
from zonelib.desk.server.making import Choice
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.rules.course import Course, course_for
from zonelib.sheet.kinds import pad_for
from zonelib.sheet.trouble import SheetTrouble
from zonelib.site.faults import Fault, FileFault

__all__ = ["chosen", "released_choices"]

MANY = 2


def chosen(names: Sequence[str], course: Path, *, rooms: int = 1) -> list[list[Choice]]:
    """Return the exercises of the given names or paths, as the course marks them.

    Parameters
    ----------
    names : sequence of str
        Of the library's exercises, or paths of exercise files.
    course : Path
        The course's folder.
    rooms : int
        How many rooms to make of each exercise that varies; 1 takes each as it is written.

    Raises
    ------
    FileFault
        If one is not there, cannot be used, has no pad, or is named twice.
    """
    settings = course_for(course)
    found = [_rooms(name, settings, rooms) for name in names]
    ids = [each[0].bundle.exercise.id for each in found]
    if twice := sorted({name for name in ids if ids.count(name) > 1}):
        raise FileFault("the exercises", [Fault(twice[0], "named twice", "each exercise once")])
    for each in found:
        _held_to_pad(each[0].bundle)
    return found


def _rooms(name: str, course: Course | None, rooms: int) -> list[Choice]:
    """Return rooms by seeds that nobody chose; an exercise that does not vary is the same for all."""
    from zonelib.coach.variants.seeds import BITS, variant_of  # the solver is heavy, and serving needs none
    from zonelib.coach.variants.vary import family_of

    path = exercise_path(name)
    exercise = read_exercise(path)
    if rooms < MANY or exercise.variants is None:
        return [Choice(freeze(exercise, folder=path.parent, course=course))]
    family = family_of(exercise, folder=path.parent, course=course)
    seeds = [secrets.randbits(BITS) for _ in range(rooms)]
    made = {seed: family.room(seed).bundle for seed in seeds}
    different = {bundle.hash: Choice(bundle, variant_of(seed)) for seed, bundle in made.items()}
    return list(different.values())


def _held_to_pad(bundle: Bundle) -> None:
    try:
        pad_for(bundle)
    except SheetTrouble as trouble:
        raise FileFault(
            bundle.exercise.id, [Fault("exercise", str(trouble), "a kind with a pad")]
        ) from trouble


def released_choices(course: Path) -> list[list[Choice]]:
    """Return every released exercise of a course that has a pad, each once.

    Raises
    ------
    FileFault
        If the course has no released bundles.
    """
    released, found = find_bundles(course), dict[str, Bundle]()
    for bundles in released.assignments.values():
        for name, bundle in bundles.items():
            if bundle.kind.pad and not bundle.kind.beyond_pad(bundle.exercise):
                found.setdefault(name, bundle)
    return [[Choice(bundle)] for bundle in found.values()]
