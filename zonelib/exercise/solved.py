"""Whether an exercise can still be solved under the readings of a course."""

from collections.abc import Sequence

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import marks
from zonelib.exercise.model import Exercise
from zonelib.exercise.trial import marked_answer
from zonelib.rules.course import Course
from zonelib.site.faults import Fault, FileFault

__all__ = ["must_be_solved"]

ALLOWED = "one that earns all marks: set readings in the exercise's own case, choose others, or leave it out"


def must_be_solved(bundles: Sequence[Bundle], exercises: Sequence[Exercise], course: Course) -> None:
    """Refuse exercises whose model answer loses marks once a course's readings are in the bundle.

    Raises
    ------
    FileFault
        With every such exercise.
    """
    pairs = zip(bundles, exercises, strict=True)
    results = [marked_answer(bundle, exercise.model) for bundle, exercise in pairs]
    faults = [_fault(one) for one in results if one.score < one.points]
    if faults:
        raise FileFault(str(course.path), faults)


def _fault(result: Result) -> Fault:
    found = f"a model answer that earns {marks(result.score)} of {marks(result.points)} under these readings"
    return Fault(f"readings, for the exercise {result.exercise}", found, ALLOWED)
