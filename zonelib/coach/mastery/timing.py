"""When to revise: each family of rules is a card of the `fsrs` package, played through from the record."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from fsrs import Card, Rating, Scheduler

from zonelib.coach.mastery.policy import Policy
from zonelib.coach.mastery.record import Record
from zonelib.coach.mastery.standing import Sitting, sittings

__all__ = ["Due", "due_dates", "intervals", "rating_of"]


@dataclass(frozen=True)
class Due:
    """When a family of rules is to be revised.

    Attributes
    ----------
    family : str
        Its name in the policy.
    at : datetime
        When, in UTC.
    """

    family: str
    at: datetime


def scheduler() -> Scheduler:
    """Return the scheduler with its own settings, and no chance in it: a record always gives one date."""
    return Scheduler(enable_fuzzing=False)


def due_dates(record: Record, *, policy: Policy) -> tuple[Due, ...]:
    """Return when each family that was practised is to be revised, the earliest first."""
    plan, cards = scheduler(), dict[str, Card]()
    for one in sittings(record):
        for family in dict.fromkeys(policy.family(rule) for rule in one.rules):
            card = cards.get(family) or Card(card_id=1, due=one.last.time)
            rating = rating_of(one, family, policy=policy)
            cards[family], _ = plan.review_card(card, rating, one.last.time)
    return tuple(sorted((Due(name, card.due) for name, card in cards.items()), key=lambda one: one.at))


def rating_of(one: Sitting, family: str, *, policy: Policy) -> Rating:
    """Return how a family went in one sitting.

    All marks at the first check without a hint is ``Easy``, all after a retry or with a hint ``Good``, a
    part ``Hard``, and less than the policy's `little` is ``Again``.
    """
    first, last = (_share(shown, family, policy) for shown in (one.first.rules, one.rules))
    if last >= 1.0:
        return Rating.Easy if first >= 1.0 and not one.hints else Rating.Good
    return Rating.Hard if last >= policy.little else Rating.Again


def _share(rules: dict[str, float], family: str, policy: Policy) -> float:
    shares = [share for rule, share in rules.items() if policy.family(rule) == family]
    return sum(shares) / len(shares) if shares else 0.0


def intervals(ratings: Sequence[Rating], *, start: datetime) -> list[int]:
    """Return the days from each revision to the next, each made when it is due."""
    plan, card, days = scheduler(), Card(card_id=1, due=start), list[int]()
    at = start
    for rating in ratings:
        card, _ = plan.review_card(card, rating, at)
        days.append((card.due - at).days)
        at = card.due
    return days
