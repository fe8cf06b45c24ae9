"""One timber member on the bench: how its findings are made."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from zonelib.rules.finding import Finding, Place, Status
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure, finding
from zonelib.rules.words import beside, mm
from zonelib.site.tolerance import above, below

__all__ = ["Bench"]


@dataclass(frozen=True)
class Bench:
    """A member with what its findings share.

    Attributes
    ----------
    book : Rulebook
        Pack and readings.
    place : Place
        The joist or the stud.
    clause : str
        What stands behind a finding that names no other clause.
    """

    book: Rulebook
    place: Place
    clause: str

    def say(
        self, rule: str, outcome: str, status: Status, *, subject: str, other: str | None = None,
        clause: str | None = None, measure: Measure | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        """Return a finding about this member."""
        member = {"joist": self.place.joist, "stud": self.place.stud, "other": other, "device": self.device}
        return finding(
            self.book, rule, outcome, status, subject=subject, where=replace(self.place, other=other),
            clause=self.clause if clause is None else clause, measure=measure, **{**member, **facts},
        )  # fmt: skip

    @property
    def device(self) -> str:
        """What some take for a way out: an RCD, or its like where the pack's code does not use that word."""
        return "An RCD" if self.book.pack.rcd else "A device that trips"

    def compare(
        self, rule: str, outcomes: tuple[str, str], measure: Measure, *, subject: str,
        other: str | None = None, clause: str | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        """Return a pass or a fail, by the measure's own operator; outcomes are (fail, pass)."""
        measured, limit = measure.measured or 0.0, measure.limit or 0.0
        fails = above(measured, limit) if measure.operator == "<=" else below(measured, limit)
        said: dict[str, Any] = {"measured": beside(measured, limit), "limit": mm(limit, places=3), **facts}
        return self.say(
            rule, outcomes[0] if fails else outcomes[1], "fail" if fails else "pass", subject=subject,
            other=other, clause=clause, measure=measure, **said,
        )  # fmt: skip

    def left_over(
        self, rule: str, outcomes: tuple[str, str], covers: Mapping[str, float], limit: float, *,
        subject: str, clause: str | None = None, **facts: Any,
    ) -> Finding:  # fmt: skip
        """Judge the least of what is left to the edges; below 0 the outcome is ``out``."""
        edge = min(covers, key=lambda name: covers[name])
        left = covers[edge]
        return self.compare(
            rule, ("out" if below(left, 0.0) else outcomes[0], outcomes[1]), Measure(left, limit, ">="),
            subject=subject, clause=clause, edge=edge, out=beside(-left, 0.0), **facts,
        )  # fmt: skip

    def unlimited(self, rule: str, *, subject: str, other: str | None = None) -> Finding:
        """Return the finding of a rule for which the pack states no limit."""
        return self.say(
            rule, "no-limit", "not-applicable", subject=subject, other=other,
            document=self.book.citation(self.clause).document,
        )  # fmt: skip
