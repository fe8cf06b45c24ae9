"""What the class seems to have misunderstood, with an answer that shows it."""

import json
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from zonelib.coach.diagnosis.diagnose import Diagnosis, Sample, diagnose
from zonelib.coach.diagnosis.lens import Lens
from zonelib.coach.diagnosis.misconception import Misconception
from zonelib.coach.diagnosis.telling import typical_answers
from zonelib.desk.report.reading import ClassMarks, Row
from zonelib.exercise.load import bank_names, bank_path, read_exercise

__all__ = ["MOST", "Misheld", "Misunderstood", "Watch", "misunderstood"]

MOST = 600
"""So many different answers are looked at: each costs about a fifth of a second."""

Watch = Callable[[Iterable[str], int], Iterable[str]]
"""Shows how far it is: takes the trainees and how many they are, gives them back one by one."""

TYPICAL = 4
"""So many typical answers of an exercise are enough to tell how much a misconception explains."""


@dataclass(frozen=True)
class Misheld:
    """A misconception with who seems to hold it, and one answer that it explains."""

    misconception: Misconception
    trainees: tuple[str, ...]
    example: Row


@dataclass(frozen=True)
class Misunderstood:
    """The misconceptions of a class, the commonest first.

    Attributes
    ----------
    found : tuple of Misheld
        What explains somebody's answers clearly better than slips, or than another misconception.
    undecided : int
        Trainees for whom several explain equally well, so that none is said.
    looked_at, left_out : int
        Trainees whose answers were looked at, and those left out of a large class.
    """

    found: tuple[Misheld, ...]
    undecided: int
    looked_at: int
    left_out: int


class _Lenses:
    """One lens for each bundle, with its typical answers."""

    def __init__(self, marks: ClassMarks) -> None:
        self.marks = marks

    @cached_property
    def lenses(self) -> dict[str, Lens]:
        return {name: Lens(bundle) for name, bundle in self.marks.bundles.items()}

    @cached_property
    def typical(self) -> dict[str, tuple[dict[str, object], ...]]:
        """Return the bank's typical answers of an exercise it holds, and else the class's own."""
        found = {name: list(self._typical(name)) for name in self.lenses}
        return {name: _different(answers)[:TYPICAL] for name, answers in found.items()}

    def _typical(self, name: str) -> Iterator[dict[str, object]]:
        lens = self.lenses[name]
        own = lens.bundle.exercise
        known = read_exercise(bank_path(own.id)) if own.id in bank_names() else own
        yield from typical_answers(lens, own.model_copy(update={"wrong": known.wrong}))
        yield from (
            row.answer for row in self.marks.rows if row.bundle == name and row.lost_marks and row.answer
        )

    def sample(self, row: Row) -> Sample:
        return Sample(self.lenses[row.bundle], row.answer or {}, self.typical[row.bundle])


def misunderstood(marks: ClassMarks, *, watch: Watch = lambda names, _: names) -> Misunderstood:
    """Return what the trainees of a class seem to have misunderstood; no mark changes by it.

    Each trainee is explained by one misconception at most, since the class asks for what is common.
    """
    lenses = _Lenses(marks)
    papers = {name: _judged(marks, name) for name in marks.trainees}
    chosen = tuple(_within_bounds({name: rows for name, rows in papers.items() if _lost_any(rows)}))
    told = {
        name: diagnose([lenses.sample(row) for row in papers[name]], pairs=False)
        for name in watch(chosen, len(chosen))
    }
    left_out = sum(map(_lost_any, papers.values())) - len(chosen)
    undecided = sum(bool(one.undecided and not one.found) for one in told.values())
    return Misunderstood(tuple(_commonest(told, papers)), undecided, len(chosen), left_out)


def _different(answers: list[dict[str, object]]) -> tuple[dict[str, object], ...]:
    return tuple(one for at, one in enumerate(answers) if one not in answers[:at])


def _judged(marks: ClassMarks, trainee: str) -> list[Row]:
    known = marks.bundles
    return [row for row in marks.by_trainee[trainee] if row.answer is not None and row.bundle in known]


def _lost_any(rows: Sequence[Row]) -> bool:
    return any(row.lost_marks for row in rows)


def _within_bounds(papers: dict[str, list[Row]]) -> Iterator[str]:
    """Yield trainees until so many different answers have been met."""
    seen: set[tuple[str, str]] = set()
    for name, rows in papers.items():
        seen |= {(row.bundle, json.dumps(row.answer, sort_keys=True)) for row in rows}
        if len(seen) > MOST:
            return
        yield name


def _commonest(told: dict[str, Diagnosis], papers: dict[str, list[Row]]) -> list[Misheld]:
    held: dict[str, list[tuple[str, Row, Misconception]]] = defaultdict(list)
    for name, one in told.items():
        for misconception in one.found if one.explained else ():
            held[misconception.id].append((name, papers[name][one.explained[0]], misconception))
    found = [Misheld(each[0][2], tuple(name for name, *_ in each), each[0][1]) for each in held.values()]
    return sorted(found, key=lambda one: (-len(one.trainees), one.misconception.id))
