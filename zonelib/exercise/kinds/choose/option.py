"""One choice of a question."""

from collections.abc import Iterable
from dataclasses import dataclass

from zonelib.rules.engine import Verdict
from zonelib.rules.finding import Finding

__all__ = ["Option", "failed_of", "texts"]


@dataclass(frozen=True)
class Option:
    """One choice.

    Attributes
    ----------
    id, words : str
        Its name, and what it says.
    right : bool
        Whether it belongs ticked.
    short, why : str
        The reason in a few words, and the whole explanation.
    unsure : bool
        Whether the engine leaves it open, so that no question can be made of it.
    findings : tuple of Finding
        What fails, as a picture numbers it.
    """

    id: str
    words: str
    right: bool
    short: str
    why: str
    unsure: bool = False
    findings: tuple[Finding, ...] = ()


def failed_of(verdict: Verdict, subject: str | None) -> tuple[Finding, ...]:
    """Return what fails of one thing."""
    return tuple(one for one in verdict.failures if one.subject == subject)


def texts(found: Iterable[Finding]) -> str:
    """Return the explanations of findings as one text."""
    return " ".join(one.text for one in found)
