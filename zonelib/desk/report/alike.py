"""Answers that are alike in detail that chance would hardly give twice; right answers never count.

What is told is a reason to look, and never a verdict: docs/statistics.md says how the chance is reckoned.
"""

import json
import math
from collections import Counter, defaultdict
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from zonelib.desk.report.close import close_pairs
from zonelib.desk.report.reading import ClassMarks, Row
from zonelib.exercise.load import bank_names, bank_path, read_exercise

__all__ = ["EXPECTED", "Alike", "alike_pairs"]

EXPECTED = 0.1
"""A pair is shown where a class of this size would have fewer such pairs by chance."""

SAME_NUMBER = 1 / 20
"""How likely a second person is taken to choose the very same number, where nothing suggests it."""

USUAL = 0.2
"""An answer that so large a share of the others gave says nothing [share]."""

SHOWN = 12

Form = str


@dataclass(frozen=True)
class Alike:
    """Two trainees with the same answers that lose marks.

    Attributes
    ----------
    trainees : tuple of str
        The two.
    shared : tuple of Row
        The first one's rows of these answers.
    unusual : int
        Numbers in them that nobody else's answer has, and the exercise does not give.
    expected : float
        So many such pairs would be expected in this class if all had answered by themselves.
    """

    trainees: tuple[str, str]
    shared: tuple[Row, ...]
    unusual: int
    expected: float


@dataclass(frozen=True)
class _Twin:
    """Those who gave one answer, and how likely two of them would by chance."""

    rows: tuple[Row, ...]
    unusual: int
    chance: float


def alike_pairs(marks: ClassMarks, *, explained: Collection[str] = ()) -> tuple[Alike, ...]:
    """Return pairs of trainees whose answers should be looked at together, the least likely first.

    Parameters
    ----------
    marks : ClassMarks
        The class.
    explained : collection of str
        Answers, as JSON with sorted keys, that a common misconception leads to: they count only for
        numbers that the misconception does not give.
    """
    people = len({row.trainee for row in marks.rows if row.answer is not None})
    twins = list(_twins(marks, explained))
    given: dict[str, dict[int, Row]] = defaultdict(dict)
    for at, twin in enumerate(twins):
        for row in twin.rows:
            given[row.trainee].setdefault(at, row)
    pairs = []
    for one, other in close_pairs([[row.trainee for row in twin.rows] for twin in twins]):
        shared = [(row, twins[at]) for at, row in given[one].items() if at in given[other]]
        pairs.append(_pair((one, other), shared, math.comb(people, 2)))
    kept = [one for one in pairs if one.expected < EXPECTED]
    return tuple(sorted(kept, key=lambda one: (one.expected, one.trainees))[:SHOWN])


def _pair(names: tuple[str, str], found: Sequence[tuple[Row, _Twin]], pairs: int) -> Alike:
    chance = math.prod(twin.chance for _, twin in found)
    return Alike(
        names, tuple(row for row, _ in found), sum(twin.unusual for _, twin in found), chance * pairs
    )


def _twins(marks: ClassMarks, explained: Collection[str]) -> Iterator[_Twin]:
    """Yield each answer that loses marks and that two or more gave."""
    for bundle, rows in _by_bundle(marks).items():
        forms = _forms(marks, bundle, [row for row in rows if row.lost_marks])
        given = _numbers(marks.bundles[bundle].data["exercise"]) | _in_bank(marks.bundles[bundle].exercise.id)
        crowd = _crowd(rows)
        for same in forms.values():
            if len(same) > 1:
                yield from _weighed(same, crowd, given, explained)


def _by_bundle(marks: ClassMarks) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = defaultdict(list)
    for row in sorted(marks.rows, key=lambda one: one.trainee):
        if row.answer is not None and row.bundle in marks.bundles:
            found[row.bundle].append(row)
    return found


def _forms(marks: ClassMarks, bundle: str, rows: Sequence[Row]) -> dict[Form, list[Row]]:
    """Put answers together that differ only in how they were drawn."""
    kind = marks.bundles[bundle].kind
    forms: dict[Form, list[Row]] = defaultdict(list)
    for row in rows:
        forms[repr(kind.canonical(kind.answer.model_validate(row.answer)))].append(row)
    return forms


@dataclass(frozen=True)
class _Crowd:
    """All who answered an exercise: the numbers of each, how many have a number, and who lost marks."""

    numbers: dict[str, frozenset[float]]
    holders: Counter[float]
    lost: Counter[str]

    def usual(self, number: float, names: set[str]) -> bool:
        """Tell whether anybody beside these has a number too."""
        return self.holders[number] > sum(number in self.numbers[name] for name in names)


def _crowd(rows: Sequence[Row]) -> _Crowd:
    numbers: dict[str, frozenset[float]] = {}
    for row in rows:
        numbers[row.trainee] = numbers.get(row.trainee, frozenset()) | _numbers(row.answer)
    holders = Counter(number for each in numbers.values() for number in each)
    return _Crowd(numbers, holders, Counter(row.trainee for row in rows if row.lost_marks))


def _weighed(
    same: list[Row], crowd: _Crowd, given: frozenset[float], explained: Collection[str]
) -> Iterator[_Twin]:
    """Yield how unlikely an answer is twice; the likelier of two ways to see it is never taken.

    By the class: how often the others who lost marks gave it. By its detail: how many of its numbers are
    nobody else's and nothing gives.
    """
    names = {row.trainee for row in same}
    unusual = sum(not crowd.usual(number, names) for number in _numbers(same[0].answer) - given)
    lost = crowd.lost.total() - sum(crowd.lost[name] for name in names) + len(same) - 2
    by_class = (len(same) - 1) / (lost + 2)
    expected = not unusual and json.dumps(same[0].answer, sort_keys=True) in explained
    if by_class <= USUAL and not expected:
        yield _Twin(tuple(same), unusual, min(by_class, SAME_NUMBER**unusual))


@cache
def _in_bank(name: str) -> frozenset[float]:
    """Return the numbers of the answers that the bank itself calls typical, or right."""
    if name not in bank_names():
        return frozenset()
    exercise = read_exercise(bank_path(name))
    return _numbers([exercise.model, *(one["answer"] for one in exercise.wrong)])


def _numbers(data: Any) -> frozenset[float]:
    """Return every number in data, however deep."""
    if isinstance(data, dict):
        return frozenset().union(*map(_numbers, data.values()))
    if isinstance(data, list | tuple):
        return frozenset().union(*map(_numbers, data))
    return (
        frozenset({float(data)})
        if isinstance(data, int | float) and not isinstance(data, bool)
        else frozenset()
    )
