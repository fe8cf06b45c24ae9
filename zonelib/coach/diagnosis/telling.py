"""Which misconceptions an exercise can tell apart."""

from collections.abc import Iterable
from typing import Any

from zonelib.coach.diagnosis.lens import NOTHING, Lens
from zonelib.coach.diagnosis.misconception import library
from zonelib.exercise.model import Exercise

__all__ = ["told_apart", "typical_answers"]

Answer = dict[str, Any]


def typical_answers(lens: Lens, exercise: Exercise) -> tuple[Answer, ...]:
    """Return the answers that lose marks: the exercise's own, and what each misconception ticks."""
    found: list[Answer] = [one["answer"] for one in exercise.wrong]
    if lens.bundle.exercise.kind == "choose" and exercise.case:
        keys = {lens.key(lens.part(frozenset({name}))) for name in library()}
        found += [{"chosen": list(key)} for key in sorted(keys - {lens.key(NOTHING)})]
    return tuple(one for at, one in enumerate(found) if one not in found[:at])


def told_apart(lens: Lens, answers: Iterable[Answer]) -> dict[str, frozenset[int]]:
    """Return for each misconception that an exercise can show which answers it makes right.

    Two with the same answers cannot be told apart by this exercise alone.
    """
    wrong = [(at, one) for at, one in enumerate(answers) if not lens.right(NOTHING, one)]
    shown = {
        name: frozenset(at for at, one in wrong if lens.right(frozenset({name}), one)) for name in library()
    }
    return {name: those for name, those in shown.items() if those}
