"""What there is to say about one answer: a message per failed finding or unexplained criterion."""

from collections.abc import Iterable
from dataclasses import dataclass

from zonelib.exercise.criteria import Criterion
from zonelib.rules.engine import Verdict
from zonelib.rules.finding import Finding

__all__ = ["Message", "capital", "percent", "told"]


@dataclass(frozen=True)
class Message:
    """One thing to mend.

    Attributes
    ----------
    n : int
        Its number on the picture; 0 where the picture shows none.
    title, text : str
        The reason in a few words, and the explanation.
    rule : str
        Rule of the finding, or "" for a criterion of the exercise.
    """

    n: int
    title: str
    text: str
    rule: str = ""


def told(criteria: Iterable[Criterion], verdict: Verdict) -> tuple[Message, ...]:
    """Return a message for each failed finding, numbered in their order, and for what none of them tells."""
    failed = verdict.failures
    numbered = [Message(n, capital(one.reason), one.text, one.rule) for n, one in enumerate(failed, start=1)]
    return (*numbered, *(Message(0, one.words, one.reason) for one in _unexplained(criteria, failed)))


def _unexplained(criteria: Iterable[Criterion], failed: Iterable[Finding]) -> list[Criterion]:
    """Return criteria whose loss no finding tells of; what waits for another is told there."""
    said = {text for one in failed for text in (one.text, one.reason)}
    lost = [one for one in criteria if not one.met and not one.waits]
    return [one for one in lost if not any(one.reason.startswith(text) for text in said)]


def capital(words: str) -> str:
    """Return words with a capital first.

    >>> capital("in the zones")
    'In the zones'
    """
    return words[:1].upper() + words[1:]


def percent(share: float) -> str:
    """Return a share in words of which 0% and 100% are never rounded ones.

    >>> percent(1.0), percent(0.9999), percent(0.25)
    ('100%', '99%', '25%')
    """
    return f"{share:.0%}" if share in (0.0, 1.0) else f"{min(max(share, 0.01), 0.99):.0%}"
