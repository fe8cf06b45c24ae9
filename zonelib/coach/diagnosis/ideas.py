"""The idea that answers fit, from frozen bundles alone, in words for the one who answered."""

import json
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from zonelib.coach.diagnosis.diagnose import Diagnosis, Sample, diagnose
from zonelib.coach.diagnosis.lens import Lens
from zonelib.coach.diagnosis.misconception import Misconception
from zonelib.coach.diagnosis.telling import typical_answers
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result

__all__ = ["diagnosed", "idea_words"]

HELD = 64
"""Exercises whose rules are kept as somebody takes them: a class answers the same ones over and over."""


def diagnosed(marked: Iterable[tuple[Bundle, Result]]) -> Diagnosis:
    """Return what marked answers of one person show to be misunderstood, one misconception at most.

    Answers that could not be judged are left out; `explained` counts those that are left. No mark changes.
    """
    samples = [_sample(bundle, result) for bundle, result in marked if result.status == "marked"]
    return diagnose(samples, pairs=False) if samples else Diagnosis((), (), ())


def _sample(bundle: Bundle, result: Result) -> Sample:
    lens = _lens(bundle.text)
    answer = result.answer.model_dump(mode="json", by_alias=True, exclude_unset=True) if result.answer else {}
    lens.take(answer, result)
    return Sample(lens, answer, _typical(bundle.text))


@lru_cache(maxsize=HELD)
def _lens(text: str) -> Lens:
    return Lens(Bundle(json.loads(text)))


@lru_cache(maxsize=HELD)
def _typical(text: str) -> tuple[dict[str, Any], ...]:
    """Return what each misconception ticks, where there is a choice; a bundle holds no other answers."""
    lens = _lens(text)
    exercise = lens.bundle.exercise
    return typical_answers(lens, exercise) if exercise.kind == "choose" else ()


def idea_words(one: Misconception, *, answers: int = 1) -> str:
    """Return what is said to somebody whose answers a misconception explains.

    >>> from zonelib.coach.diagnosis.misconception import library
    >>> idea_words(library()["floor-band"])[:62]
    'Your answer fits this idea: A zone runs along the floor. What '
    """
    head = "Your answer fits this idea" if answers == 1 else "Your answers fit this idea"
    return f"{head}: {one.words} What holds instead: {one.truth}"
