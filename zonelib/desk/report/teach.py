"""What to teach next: the clauses and misconceptions that cost this class most."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from zonelib.desk.report.clauses import Met, cited, laid_out, rules_of
from zonelib.desk.report.misheld import Misheld, Misunderstood
from zonelib.desk.report.reading import ClassMarks
from zonelib.exercise.load import bank_names, bank_path, read_exercise
from zonelib.exercise.model import Exercise

__all__ = ["Lesson", "what_next"]

MASTERED = 0.8
"""A clause that this share satisfies needs no lesson for all (the usual standard is 80 to 90 %)."""

FEWEST = 3
"""Answers from which a clause is spoken of."""

CLAUSES = 3
COMMON = 3
PRACTICE = 3
"""So many of each are named: a lesson has an hour."""


@dataclass(frozen=True)
class Lesson:
    """One thing to teach.

    Attributes
    ----------
    title, why, say : str
        What it is about, what shows that it is needed, and what is so.
    practice : tuple of str
        Exercises of the bank that ask for it and were not in this set.
    """

    title: str
    why: str
    say: str
    practice: tuple[str, ...] = ()


def what_next(marks: ClassMarks, met: dict[str, Met], held: Misunderstood) -> tuple[Lesson, ...]:
    """Return what to teach next, the most needed first."""
    weak = [
        (clause, one) for clause, one in met.items() if one.relevant >= FEWEST and one.facility < MASTERED
    ]
    lessons = [_on_clause(marks, clause, one) for clause, one in weak[:CLAUSES]]
    common = [one for one in held.found if len(one.trainees) > 1][:COMMON]
    return (*lessons, *(_on_misconception(one, held.looked_at) for one in common))


def _on_clause(marks: ClassMarks, clause: str, met: Met) -> Lesson:
    citation = cited(marks, clause)
    why = f"Met in {met.satisfied} of the {met.relevant} answers in which it played a part."
    return Lesson(
        f"Clause {clause}", why, citation.about if citation else "", tuple(_practice(marks, clause))
    )


def _on_misconception(one: Misheld, looked_at: int) -> Lesson:
    why = f"It explains answers of {len(one.trainees)} of the {looked_at} who lost marks."
    return Lesson(f"“{one.misconception.words}”", why, one.misconception.truth)


def _practice(marks: ClassMarks, clause: str) -> Iterator[str]:
    """Yield exercises of the bank that ask for what rests on a clause, the easiest first."""
    rules, asked = rules_of(laid_out(marks), clause), {row.exercise for row in marks.rows}
    packs = {bundle.pack.id for bundle in marks.bundles.values()}
    fit = [one for one in _bank() if rules & set(one.aim) and one.case.get("pack") in packs]
    yield from [one.id for one in fit if one.id not in asked][:PRACTICE]


@cache
def _bank() -> list[Exercise]:
    read = (read_exercise(bank_path(name)) for name in bank_names())
    return sorted(read, key=lambda one: one.difficulty)
