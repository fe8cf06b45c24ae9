"""The bank's exercises frozen once, their model answers, and answers marked as they are read from a file."""

import json
import math
from functools import cache
from typing import Any

import pytest

from zonelib.exercise import (
    AnswerRecord,
    Bundle,
    Exercise,
    Result,
    bank_names,
    bank_path,
    freeze,
    mark,
    read_exercise,
    read_record,
)  # fmt: skip

Answer = dict[str, Any]
EASY, HARD = "bedroom-drop", "kitchen-hatch"
NAMES = bank_names()
STARTERS = frozenset(
    {
        "bathroom-joist", "bedroom-drop", "bedroom-how-far-out", "bedroom-over-the-ceiling", "bedroom-zones",
        "dining-inspection", "hall-pictures", "kitchen-cupboard", "kitchen-hatch", "landing-first-run",
        "landing-joist", "landing-which-screws", "living-room-corner", "loft-zones", "nursery-from-behind",
        "office-which-clauses", "porch-what-to-say", "store-given-run", "study-how-deep", "study-inspection",
        "utility-deepest-chase",
    }
)  # fmt: skip
"""Exercises whose typical mistakes have their marks worked out by hand; the others state them only."""


@cache
def exercise(name: str) -> Exercise:
    return read_exercise(bank_path(name))


def names_of(kind: str) -> list[str]:
    return [name for name in NAMES if exercise(name).kind == kind]


def starters_of(kind: str) -> list[str]:
    return [name for name in names_of(kind) if name in STARTERS]


@cache
def bundle(name: str) -> Bundle:
    return freeze(exercise(name))


def model(name: str) -> Answer:
    answer: Answer = json.loads(json.dumps(exercise(name).model))
    return answer


def written(name: str, answer: Any, **changes: Any) -> str:
    """Return an answer's record as it lies in a file."""
    record = {"schema": 1, "exercise": name, "bundle": bundle(name).hash, "revision": 1, "saved_at": "now"}
    return json.dumps({**record, "answer": answer, **changes})


def record(name: str, answer: Any, **changes: Any) -> AnswerRecord:
    return read_record(written(name, answer, **changes))


def marked(name: str, answer: Any, **changes: Any) -> Result:
    return mark(bundle(name), record(name, answer, **changes))


def check_promises(result: Result) -> None:
    """Hold a finite mark within its bounds, reasons, and full marks exactly when every criterion is met."""
    assert math.isfinite(result.score)
    assert 0.0 <= result.score <= result.points
    assert result.score == pytest.approx(sum(one.gained for one in result.criteria))
    assert all(0.0 <= one.gained <= one.marks and one.reason for one in result.criteria)
    assert all(one.met == (one.gained == one.marks) for one in result.criteria)
    assert (result.score == result.points) == all(one.met for one in result.criteria)
    assert result.status == "marked" or result.score == 0.0


def scores(result: Result) -> dict[str, float]:
    return {one.id: one.gained for one in result.criteria}
