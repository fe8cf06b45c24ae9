"""What to practise next: the weakest rule, then what is due, then what has not been seen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import count

from zonelib.coach.mastery.policy import Policy
from zonelib.coach.mastery.record import Record
from zonelib.coach.mastery.standing import Standing, standings
from zonelib.coach.mastery.timing import due_dates

__all__ = ["Offer", "Pick", "next_exercise"]


@dataclass(frozen=True)
class Offer:
    """An exercise that can be picked.

    Attributes
    ----------
    name : str
        Of the exercise.
    aim : tuple of str
        The rules it is about.
    difficulty : int
        From 1 to 5.
    varies : bool
        Whether variants of it can be made.
    """

    name: str
    aim: tuple[str, ...]
    difficulty: int
    varies: bool = False


@dataclass(frozen=True)
class Pick:
    """What to practise next.

    Attributes
    ----------
    exercise : str
        Name of the exercise.
    seed : int
        Which variant; 0 for the exercise as it stands.
    why : str
        ``weakest``, ``due``, ``new``, or ``again``.
    rule : str
        The rule it is picked for, or "".
    """

    exercise: str
    seed: int
    why: str
    rule: str


def next_exercise(record: Record, offers: Sequence[Offer], *, now: datetime, policy: Policy) -> Pick:
    """Return what to practise next.

    Parameters
    ----------
    record : Record
        What was practised so far.
    offers : sequence of Offer
        What can be picked, one or more.
    now : datetime
        The time, with its zone.
    policy : Policy
        When a rule counts as mastered.
    """
    why, rule = next(_wanted(record, offers, now, policy))
    fitting = [one for one in offers if rule in one.aim] or list(offers)
    seen = [one.key for one in record.checks]
    last = seen[-1][0] if seen else ""
    best = min(fitting, key=lambda one: _rank(one, [name for name, _ in seen], last))
    return Pick(best.name, _seed(best, seen), why, rule)


def _wanted(
    record: Record, offers: Sequence[Offer], now: datetime, policy: Policy
) -> Iterator[tuple[str, str]]:
    """Yield reasons to practise a rule, the strongest first."""
    every = standings(record, dict.fromkeys(rule for one in offers for rule in one.aim), policy=policy)
    weak = [one for one in every.values() if one.state == "not yet" and _can_add(one, offers)]
    yield from (("weakest", one.rule) for one in sorted(weak, key=lambda one: _weakness(one, policy)))
    for due in due_dates(record, policy=policy):
        known = [rule for rule in every if policy.family(rule) == due.family]
        yield from (("due", rule) for rule in known if due.at <= now)
    fresh = sorted(offers, key=lambda one: (one.difficulty, one.name))
    yield from (("new", rule) for one in fresh for rule in one.aim if every[rule].state == "new")
    yield "again", ""


def _can_add(one: Standing, offers: Sequence[Offer]) -> bool:
    """Tell whether there is an exercise that can show more of a rule than its row does."""
    met = {name for name, _ in one.row}
    return any(offer.varies or offer.name not in met for offer in offers if one.rule in offer.aim)


def _weakness(one: Standing, policy: Policy) -> tuple[float, bool, str]:
    return one.strength, one.rule not in policy.critical, one.rule


def _rank(one: Offer, seen: Sequence[str], last: str) -> tuple[bool, int, int, int, str]:
    """Order exercises: not the last one again, then the least seen, the longest not seen, the easiest."""
    latest = len(seen) - seen[::-1].index(one.name) if one.name in seen else 0
    times = 0 if one.name not in seen else 1
    return one.name == last and not one.varies, times, latest, one.difficulty, one.name


def _seed(one: Offer, seen: Sequence[tuple[str, str]]) -> int:
    """Return the exercise as it stands the first time, then the first variant that has not been seen."""
    variants = {variant for name, variant in seen if name == one.name}
    if not one.varies or not variants:
        return 0
    known = {_number(variant) for variant in variants}
    return next(seed for seed in count(1) if seed not in known)


def _number(variant: str) -> int:
    """Return the seed that a variant is named after; 0 for what is no name of one."""
    try:
        return int(variant, 16)
    except ValueError:
        return 0
