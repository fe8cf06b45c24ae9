"""Find the exercises of a sitting: of the course, of the library, or a file."""

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


def chosen(names: Sequence[str], course: Path) -> list[list[Choice]]:
    """Return the exercises of the given names or paths, as the course marks them.

    Raises
    ------
    FileFault
        If one is not there, cannot be used, has no pad, or is named twice.
    """
    settings = course_for(course)
    found = [_bundle(name, settings) for name in names]
    ids = [bundle.exercise.id for bundle in found]
    if twice := sorted({name for name in ids if ids.count(name) > 1}):
        raise FileFault("the exercises", [Fault(twice[0], "named twice", "each exercise once")])
    for bundle in found:
        _held_to_pad(bundle)
    return [[Choice(bundle)] for bundle in found]


def _bundle(name: str, course: Course | None) -> Bundle:
    path = exercise_path(name)
    return freeze(read_exercise(path), folder=path.parent, course=course)


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
