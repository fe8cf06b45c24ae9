"""Whether an exercise can still be solved under the readings of a course."""

from collections.abc import Sequence

from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result, mark
from zonelib.exercise.messages import marks
from zonelib.exercise.model import Exercise
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
    results = [_model_marked(*pair) for pair in zip(bundles, exercises, strict=True)]
    faults = [_fault(one) for one in results if one.score < one.points]
    if faults:
        raise FileFault(str(course.path), faults)


def _model_marked(bundle: Bundle, exercise: Exercise) -> Result:
    stated = {"schema": 1, "exercise": exercise.id, "bundle": bundle.hash, "revision": 0, "saved_at": ""}
    return mark(bundle, AnswerRecord.model_validate({**stated, "answer": exercise.model}))


def _fault(result: Result) -> Fault:
    found = f"a model answer that earns {marks(result.score)} of {marks(result.points)} under these readings"
    return Fault(f"readings, for the exercise {result.exercise}", found, ALLOWED)
