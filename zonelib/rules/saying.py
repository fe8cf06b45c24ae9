"""Make a finding: what was measured, and the words for it."""

from dataclasses import dataclass

from zonelib.rules.finding import Finding, Operator, Place, Status
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import words

__all__ = ["Measure", "finding"]


@dataclass(frozen=True)
class Measure:
    """What was measured, its limit, and how they must compare."""

    measured: float | None = None
    limit: float | None = None
    operator: Operator = "<="
    unit: str = "mm"


def finding(
    book: Rulebook, rule: str, outcome: str, status: Status, *, subject: str, where: Place, clause: str = "",
    measure: Measure | None = None, **facts: object,
) -> Finding:  # fmt: skip
    """Return a finding with its words.

    Parameters
    ----------
    book : Rulebook
        Pack and readings, for the citation.
    rule, outcome, status : str
        Which rule, which entry of its words, and the verdict.
    subject, where, clause : str, Place, str
        What it is about, where it lies, and what stands behind it.
    measure : Measure, optional
        What was measured.
    **facts
        What the words are filled with.
    """
    measure = measure or Measure(unit="")
    reason, text = words(rule, outcome, **{"subject": subject, **facts})
    if clause:
        text = f"{text} {book.cite(clause)}"
    return Finding(
        rule, clause, status, subject, where, measure.measured, measure.limit,
        measure.operator, measure.unit, reason, text,
    )  # fmt: skip
