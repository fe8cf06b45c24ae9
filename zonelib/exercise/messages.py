"""What there is to say about a marked answer, in words that report and panel share."""

from zonelib.exercise.marking import Result
from zonelib.exercise.told import Message, capital

__all__ = ["headline", "in_order", "marks", "met_words", "most_serious_first", "sentence"]

SERIOUS = ("route-on-wall", "depth-in-wall", "route-joins", "wall-zone", "wall-rcd", "metal-wall")
"""Rules in the order of what matters most: first that there is a whole route, then that nobody is hurt."""


def in_order(result: Result) -> tuple[Message, ...]:
    """Return the messages in the order of the numbers on the picture."""
    if result.status != "marked":
        return (Message(0, "Not marked", result.note),) if result.note else ()
    return result.messages


def most_serious_first(result: Result) -> tuple[Message, ...]:
    """Return the messages with the most serious first; numbers stay as on the picture."""
    return tuple(sorted(in_order(result), key=_seriousness))


def _seriousness(message: Message) -> int:
    if message.rule in SERIOUS:
        return SERIOUS.index(message.rule)
    return len(SERIOUS) + (not message.rule)


def headline(result: Result) -> str:
    """Return how many criteria are met, as a fact.

    Examples are "4 of 5 met" and "Nothing is drawn yet."
    """
    if result.status != "marked":
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
    return capital(words) + ("" if words.endswith(".") else ".")
