"""An exercise tried out: its model answer, an empty one, and its typical wrong ones, all marked."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result, mark
from zonelib.exercise.messages import marks, sentence
from zonelib.exercise.model import Exercise

__all__ = ["Trial", "doubts", "lost", "marked_answer", "trials"]

PLACES = 1
"""Decimals of the marks that an exercise states."""


@dataclass(frozen=True)
class Trial:
    """One answer tried out.

    Attributes
    ----------
    name, words : str
        What it is called, and what the exercise says of it.
    result : Result
        Of marking it.
    stated : float or None
        The marks that the exercise expects; None where it says nothing.
    """

    name: str
    words: str
    result: Result
    stated: float | None

    @property
    def to_state(self) -> float:
        """What the file may say that it earns."""
        return round(self.result.score, PLACES)

    @property
    def as_stated(self) -> bool:
        """Whether it earns what the exercise expects."""
        return self.stated is None or self.to_state == round(self.stated, PLACES)


def marked_answer(bundle: Bundle, answer: dict[str, Any]) -> Result:
    """Mark an answer that was never saved."""
    named = {"schema": 1, "exercise": bundle.exercise.id, "bundle": bundle.hash}
    record = {**named, "revision": 0, "saved_at": "", "answer": answer}
    return mark(bundle, AnswerRecord.model_validate(record))


def trials(exercise: Exercise, bundle: Bundle) -> tuple[Trial, ...]:
    """Try the model answer, the empty answer, then each typical wrong one."""
    model, empty = marked_answer(bundle, exercise.model), marked_answer(bundle, {})
    wrong = [
        Trial(f"Typical answer {n}", one["words"], marked_answer(bundle, one["answer"]), one["marks"])
        for n, one in enumerate(exercise.wrong, start=1)
    ]
    return (Trial("Model answer", "", model, model.points), Trial("Empty answer", "", empty, 0.0), *wrong)


def lost(result: Result, *, waiting: bool = True) -> Iterator[str]:
    """Yield each criterion that is not met, with what it earned and why, `waiting` ones too."""
    for one in result.criteria:
        if not one.met and (waiting or not one.waits):
            yield f"{one.words}: {marks(one.gained)} of {marks(one.marks)}. {sentence(one.reason)}"


def doubts(exercise: Exercise, tried: tuple[Trial, ...]) -> Iterator[str]:
    """Yield what a tutor should look at before the exercise is given out."""
    for one in tried:
        if not one.as_stated:
            earned, points, stated = map(marks, (one.result.score, one.result.points, one.stated or 0.0))
            why = lost(one.result, waiting=False)
            yield " ".join([f"{one.name} earns {earned} of {points} marks, not {stated}.", *why])
        elif one.name.startswith("Typical") and one.result.score >= one.result.points:
            yield f"{one.name} earns all marks."
    if not exercise.wrong:
        yield "There is no [[wrong]] answer: two typical ones show that the marks tell them apart."
