"""A cable as it was answered, judged; and what marking asks of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from zonelib.exercise.cabling.runs import straight_runs
from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.criteria import Outcome, by_rules
from zonelib.exercise.model import CriterionRule
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.finding import Finding
from zonelib.rules.legs import leg_lengths
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.site.model import Case, Rcd, Route
from zonelib.site.ring import ring_of
from zonelib.site.tolerance import above, below

__all__ = ["Cabling", "outside_offer"]

COVERED_BY = ("wall-zone", "wall-rcd", "metal-wall")
"""The rules that a covering may satisfy; a chase is none the shallower for it."""


@dataclass(frozen=True)
class Cabling:
    """An answered cable.

    Attributes
    ----------
    task : CableTask
        What was given of it, and what was open.
    case : Case
        The exercise's case with the answered cable as its only route.
    pack : Pack
        The rules.
    """

    task: CableTask
    case: Case
    pack: Pack

    @property
    def route(self) -> Route:
        """The cable."""
        return self.case.routes[0]

    @cached_property
    def verdict(self) -> Verdict:
        """Every finding on it."""
        return judge(self.case, self.pack)

    @cached_property
    def lengths(self) -> tuple[float, ...]:
        """Length of each leg; a void is crossed straight over the plan [mm]."""
        ring = ring_of(self.case, self.route.room) if self.route.room else None
        return leg_lengths(self.route, ring)

    @property
    def length(self) -> float:
        """Length of the whole cable [mm]."""
        return sum(self.lengths)

    @property
    def covered(self) -> float:
        """Length of it in another covering than the one given [mm]."""
        legs = zip(self.lengths, self.route.protection, strict=True)
        return sum(length for length, name in legs if name != self.task.protection)

    def failed(self, rules: Iterable[str]) -> list[Finding]:
        """Return the failed findings of some rules."""
        wanted = set(rules)
        return [one for one in self.verdict.failures if one.rule in wanted]

    def in_order(self, rule: CriterionRule) -> Outcome:
        """Return all marks where no finding fails; for zones half the marks by the length in order."""
        failed = self.failed(rule.rules)
        share, reasons = by_rules(rule, self.verdict.findings)
        if not failed or rule.rules != ("wall-zone",):
            return share, reasons
        inside = 1.0 - min(1.0, _length_of(failed) / self.length)
        return 0.5 * inside, f"{reasons}; {inside:.0%} of the length is in order"

    def needless(self) -> tuple[list[list[int]], list[int]]:
        """Return the straight runs in a covering beyond the given one, and the legs of those that need none.

        Runs count their legs from 0, the needless legs count from 1. The cable is judged again with these
        runs bare: one of which nothing then fails needed no covering. A leg fails or passes by itself, so
        one judgement does for all runs.
        """
        given, protection = self.task.protection, self.route.protection
        covered = [run for run in straight_runs(self.route) if protection[run[0]] != given]
        failing = self._failing_bare([leg for run in covered for leg in run]) if covered else set()
        return covered, [leg + 1 for run in covered if not failing & set(run) for leg in run]

    def _failing_bare(self, legs: Sequence[int]) -> set[int]:
        """Return the legs that fail once the covering of some is gone, be the RCD as good as it may be set.

        Otherwise a covering would seem needed all along a route whose RCD was left out.
        """
        route, rule = self.route, self.pack.rcd
        bare = tuple(self.task.protection if leg in legs else one for leg, one in enumerate(route.protection))
        best = Rcd(ma=rule.most_ma, at=rule.at[0]) if rule and "rcd" in self.task.open else route.rcd
        changed = route.model_copy(update={"protection": bare, "rcd": best})
        verdict = judge(self.case.model_copy(update={"routes": (changed,)}), self.pack)
        return {leg - 1 for one in verdict.failures if one.rule in COVERED_BY for leg in one.where.legs}


def _length_of(failed: list[Finding]) -> float:
    """Return the length of the failing stretches, counting what fails for both faces once [mm]."""
    spans = sorted((one.where.from_mm or 0.0, one.where.to_mm or 0.0) for one in failed)
    total, reached = 0.0, 0.0
    for start, end in spans:
        total += max(0.0, end - max(start, reached))
        reached = max(reached, end)
    return total


def outside_offer(
    task: CableTask, pack: Pack, *, depth: Sequence[float] | None, protection: Sequence[str] | None
) -> str:
    """Return what an answer sets beyond what the exercise offers, or ""."""
    low, high = task.depths
    for one in depth or () if "depth" in task.open else ():
        if below(one, low) or above(one, high):
            return f"A depth of {mm(one)} mm is not on offer here. Choose {mm(low)} to {mm(high)} mm."
    offered = task.offered(pack.protections)
    for name in protection or () if "protection" in task.open else ():
        if name not in offered:
            return f"The covering {name} is not on offer here. Choose one of: {', '.join(offered)}."
    return ""
