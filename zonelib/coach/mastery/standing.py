"""How a trainee stands on each rule: mastered, not yet, or new."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from zonelib.coach.mastery.policy import Policy
from zonelib.coach.mastery.record import Check, Record

__all__ = ["Sitting", "Standing", "sittings", "standings"]

LATEST = 3
"""So many of the latest sittings tell how strong somebody is on a rule."""


@dataclass(frozen=True)
class Sitting:
    """All checks of one exercise or variant, up to the next one."""

    checks: tuple[Check, ...]

    @property
    def first(self) -> Check:
        """The answer before any of it was told."""
        return self.checks[0]

    @property
    def last(self) -> Check:
        """The answer it ended with."""
        return self.checks[-1]

    @property
    def hints(self) -> int:
        """How many hints were opened in the end."""
        return max(one.hints for one in self.checks)

    @property
    def rules(self) -> dict[str, float]:
        """What it ended with for each rule: the latest that was found out about it."""
        return {rule: share for one in self.checks for rule, share in one.rules.items()}


@dataclass(frozen=True)
class Standing:
    """How a trainee stands on one rule.

    Attributes
    ----------
    rule, state : str
        ``mastered``, ``not yet`` or ``new``.
    row : frozenset
        The exercises and variants in which it was met, up to now without a miss.
    sittings : int
        How often it was practised.
    strength : float
        Mean share of marks at the first check, over the latest sittings; 0 where there is none.
    """

    rule: str
    state: Literal["mastered", "not yet", "new"]
    row: frozenset[tuple[str, str]]
    sittings: int
    strength: float

    @property
    def in_a_row(self) -> int:
        """In how many different exercises or variants it was met, up to now without a miss."""
        return len(self.row)


def sittings(record: Record) -> tuple[Sitting, ...]:
    """Return the checks of a record, those of one exercise after each other together."""
    return tuple(Sitting(tuple(those)) for _, those in groupby(record.checks, key=lambda one: one.key))


def standings(record: Record, rules: Iterable[str], *, policy: Policy) -> dict[str, Standing]:
    """Return how a trainee stands on each of some rules.

    Parameters
    ----------
    record : Record
        What was practised.
    rules : iterable of str
        The rules asked for.
    policy : Policy
        When a rule counts as mastered.
    """
    every = sittings(record)
    return {rule: _standing(rule, [one for one in every if rule in one.rules], policy) for rule in rules}


def _standing(rule: str, those: Sequence[Sitting], policy: Policy) -> Standing:
    if not those:
        return Standing(rule, "new", frozenset(), 0, 0.0)
    row = _row(rule, those, policy)
    state: Literal["mastered", "not yet"] = "mastered" if len(row) >= policy.in_a_row else "not yet"
    firsts = [_first_share(rule, one) for one in those[-LATEST:]]
    return Standing(rule, state, row, len(those), sum(firsts) / len(firsts))


def _first_share(rule: str, one: Sitting) -> float:
    return next(check.rules[rule] for check in one.checks if rule in check.rules)


def _row(rule: str, those: Sequence[Sitting], policy: Policy) -> frozenset[tuple[str, str]]:
    """Go back from now; the same exercise again neither counts nor breaks the row."""
    met: set[tuple[str, str]] = set()
    for one in reversed(those):
        if not _counts(rule, one, policy):
            break
        met.add(one.last.key)
    return frozenset(met)


def _counts(rule: str, one: Sitting, policy: Policy) -> bool:
    asked = {rule, *(other for other in one.rules if other in policy.critical)}
    return one.hints <= policy.most_hints and all(one.rules[each] >= policy.level(each) for each in asked)
