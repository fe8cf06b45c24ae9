"""Criteria: what marks are given for, each with marks, what was gained, and why."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from zonelib.exercise.model import CriterionRule
from zonelib.rules.finding import Finding
from zonelib.rules.words import listed

__all__ = ["Criterion", "Outcome", "by_rules", "decide", "lost", "withheld"]

Outcome = tuple[float, str]
"""Share of the marks, 1 exactly when met, and the reason."""


@dataclass(frozen=True)
class Criterion:
    """One criterion of a marked answer.

    Attributes
    ----------
    id, words : str
        Its name, and what it asks.
    marks, gained : float
        Marks it carries, and marks earned; they are equal exactly when it is met.
    met : bool
        Whether it is met.
    reason : str
        Why.
    waits : bool
        Whether it was not looked at, because something before it is not met.
    """

    id: str
    words: str
    marks: float
    gained: float
    met: bool
    reason: str
    waits: bool = False


def decide(
    rules: Sequence[CriterionRule], outcome: Callable[[CriterionRule], Outcome]
) -> tuple[Criterion, ...]:
    """Decide criteria in their order; one that needs others gives marks only where they are met."""
    decided: dict[str, Criterion] = {}
    for rule in rules:
        needed = [decided[name] for name in rule.needs if name in decided]
        unmet = [one.words for one in needed if not one.met]
        if unmet:
            decided[rule.id] = lost(rule, f"This counts once this is met: {listed(unmet)}.", waits=True)
        else:
            decided[rule.id] = _gained(rule, *outcome(rule))
    return tuple(decided.values())


def _gained(rule: CriterionRule, share: float, reason: str) -> Criterion:
    gained = round(rule.marks * min(max(share, 0.0), 1.0), 4)
    return Criterion(rule.id, rule.words, rule.marks, gained, gained == rule.marks, reason)


def lost(rule: CriterionRule, reason: str, *, waits: bool = False) -> Criterion:
    """Return a criterion that earns nothing, for a reason."""
    return Criterion(rule.id, rule.words, rule.marks, 0.0, met=False, reason=reason, waits=waits)


def withheld(rules: Sequence[CriterionRule], flaw: str, *, check: str, until: str) -> tuple[Criterion, ...]:
    """Return criteria that all wait for one flaw to be mended.

    Parameters
    ----------
    flaw : str
        What is amiss.
    check : str
        The check whose criterion tells of it; without such a criterion every one does.
    until : str
        What the others say.
    """
    told = any(rule.check == check for rule in rules)
    return tuple(
        lost(rule, until, waits=True) if told and rule.check != check else lost(rule, flaw) for rule in rules
    )


def by_rules(rule: CriterionRule, findings: Iterable[Finding]) -> Outcome:
    """Return all marks where no finding of the criterion's rules fails."""
    ours = [one for one in findings if one.rule in rule.rules]
    failed = [one.reason for one in ours if one.status == "fail"]
    if failed:
        return 0.0, "; ".join(dict.fromkeys(failed))
    met = [one.reason for one in ours if one.status == "pass"]
    return 1.0, "; ".join(dict.fromkeys(met)) or "nothing here asks for it"
