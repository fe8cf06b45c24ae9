"""What the pad is given: an exercise to answer, and what a check found."""

from typing import Any

from zonelib.exercise.answer import AnswerRecord, read_answer
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import headline
from zonelib.sheet.kinds import pad_for

__all__ = ["answer_of", "pad_result", "pad_task"]


def pad_task(bundle: Bundle) -> dict[str, Any]:
    """Return the exercise as the pad's task.

    Raises
    ------
    SheetTrouble
        If there is no pad for its kind.
    """
    return pad_for(bundle).common(bundle)


def pad_result(bundle: Bundle, result: Result) -> dict[str, Any] | None:
    """Return what a check found as the pad shows it: what fails, under its numbers."""
    if result.status != "marked":
        return None
    found = pad_for(bundle).stretches(bundle, result)
    return {"stretches": found, "passed": result.score == result.points, "summary": headline(result)}


def answer_of(record: AnswerRecord, bundle: Bundle) -> dict[str, Any]:
    """Return a saved answer as the pad holds it.

    Raises
    ------
    FileFault
        If it is not an answer of the exercise's kind.
    """
    saved = read_answer(record, bundle.kind)
    return pad_for(bundle).held(bundle, saved.model_dump(mode="json", by_alias=True))
