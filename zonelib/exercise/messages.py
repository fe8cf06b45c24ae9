"""What there is to say about a marked answer: a message per failed finding or unexplained criterion."""

from collections.abc import Iterable
from dataclasses import dataclass

from zonelib.exercise.criteria import Criterion
from zonelib.exercise.marking import Result
from zonelib.rules.finding import Finding

__all__ = ["Message", "headline", "in_order", "marks", "met_words", "most_serious_first", "sentence"]

SERIOUS = ("route-on-wall", "depth-in-wall", "route-joins", "wall-zone", "wall-rcd", "metal-wall")
"""Rules in the order of what matters most: first that there is a whole route, then that nobody is hurt."""


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


def in_order(result: Result) -> tuple[Message, ...]:
    """Return the messages in the order of the numbers on the picture."""
    if result.verdict is None:
        return (Message(0, "Not marked", result.note),) if result.note else ()
    failed = result.verdict.failures
    numbered = [Message(n, _capital(one.reason), one.text, one.rule) for n, one in enumerate(failed, start=1)]
    own = [Message(0, one.words, one.reason) for one in _unexplained(result.criteria, failed)]
    return (*numbered, *own)


def most_serious_first(result: Result) -> tuple[Message, ...]:
    """Return the messages with the most serious first; numbers stay as on the picture."""
    return tuple(sorted(in_order(result), key=_seriousness))


def _seriousness(message: Message) -> int:
    if message.rule in SERIOUS:
        return SERIOUS.index(message.rule)
    return len(SERIOUS) + (not message.rule)


def _unexplained(criteria: Iterable[Criterion], failed: Iterable[Finding]) -> list[Criterion]:
    """Return criteria whose loss no finding tells of; what waits for a whole route is told once."""
    said = {text for one in failed for text in (one.text, one.reason)}
    lost = [one for one in criteria if not one.met]
    whole = [one for one in lost if one.id == "reach" and one.reason not in said]
    waiting = any(one.id == "reach" for one in lost)
    if waiting:
        return whole
    return [one for one in lost if not any(one.reason.startswith(text) for text in said)]


def headline(result: Result) -> str:
    """Return how many criteria are met, as a fact.

    Examples are "4 of 5 met" and "Nothing is drawn yet."
    """
    if result.verdict is None:
        return result.note
    return f"{sum(one.met for one in result.criteria)} of {len(result.criteria)} met"


def marks(value: float) -> str:
    """Return marks as a reader writes them.

    >>> marks(8.0), marks(6.3953)
    ('8', '6.4')
    """
    return f"{round(value, 2):g}"


def met_words(result: Result) -> tuple[str, ...]:
    """Return what is met, each with its reason."""
    return tuple(f"{one.words}: {sentence(one.reason)}" for one in result.criteria if one.met)


def sentence(words: str) -> str:
    """Return a reason as a sentence.

    >>> sentence("in the zones"), sentence("It reaches S1.")
    ('In the zones.', 'It reaches S1.')
    """
    return _capital(words) + ("" if words.endswith(".") else ".")


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
