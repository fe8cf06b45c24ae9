"""A trainee's progress at a glance: a row for each family of rules."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from zonelib.coach.mastery.policy import Policy
from zonelib.coach.mastery.record import Record
from zonelib.coach.mastery.standing import Sitting, Standing, sittings, standings
from zonelib.coach.mastery.timing import due_dates

__all__ = ["Row", "overview"]


@dataclass(frozen=True)
class Row:
    """How a trainee stands on a family of rules.

    Attributes
    ----------
    words, state : str
        The family's name, and ``mastered``, ``not yet`` or ``new``: mastered where each of its rules is.
    met : tuple of bool
        For each sitting that was about it, whether its rules were met there.
    in_a_row : int
        In how many different exercises or variants, up to now, its weakest rule was met.
    due : datetime or None
        When it is to be revised; None where it is new.
    """

    words: str
    state: Literal["mastered", "not yet", "new"]
    met: tuple[bool, ...]
    in_a_row: int
    due: datetime | None


def overview(record: Record, rules: Iterable[str], *, policy: Policy) -> tuple[Row, ...]:
    """Return a row for each family of some rules, in the policy's order.

    Parameters
    ----------
    record : Record
        What was practised.
    rules : iterable of str
        The rules that can be practised.
    policy : Policy
        When a rule counts as mastered, and which rules belong together.
    """
    every = standings(record, dict.fromkeys(rules), policy=policy)
    order = [*policy.families, *every]
    names = sorted({policy.family(rule) for rule in every}, key=order.index)
    due = {one.family: one.at for one in due_dates(record, policy=policy)}
    done = sittings(record)
    return tuple(
        _row(
            name,
            [one for one in every.values() if policy.family(one.rule) == name],
            done,
            policy,
            due.get(name),
        )
        for name in names
    )


def _row(
    name: str, those: Sequence[Standing], done: Sequence[Sitting], policy: Policy, due: datetime | None
) -> Row:
    seen = [one for one in those if one.state != "new"]
    mastered = bool(seen) and all(one.state == "mastered" for one in seen)
    state: Literal["mastered", "not yet", "new"] = "mastered" if mastered else "not yet" if seen else "new"
    shares = [_shares(one, name, policy) for one in done]
    met = tuple(all(share >= policy.level(rule) for rule, share in one.items()) for one in shares if one)
    return Row(policy.words(name), state, met, min((one.in_a_row for one in seen), default=0), due)


def _shares(one: Sitting, name: str, policy: Policy) -> dict[str, float]:
    return {rule: share for rule, share in one.rules.items() if policy.family(rule) == name}
