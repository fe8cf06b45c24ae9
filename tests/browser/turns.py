"""What it takes to work one exercise of each kind: answer it in each way, and know what a check finds."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page

from tests.browser.desk import Answer

__all__ = ["Turn", "Way", "all_near", "holding"]

Fits = Callable[[Answer], bool]


@dataclass(frozen=True)
class Way:
    """One way to answer.

    Attributes
    ----------
    act : callable
        Answers on an open sheet.
    fits : callable
        Tells whether what is saved is what this should come to.
    """

    act: Callable[[Page], None]
    fits: Fits


@dataclass(frozen=True)
class Turn:
    """One exercise at work.

    Attributes
    ----------
    exercise : str
        Of the bank.
    found : str
        Words of the panel when what the mouse drew is checked.
    marked : int
        How many numbers that check draws.
    mouse, touch, keys : Way
        By mouse, by fingers, by keyboard alone.
    numbers : Way or None
        By fields and lists alone; None for a kind that is all fields, where keys are no other way.
    """

    exercise: str
    found: str
    marked: int
    mouse: Way
    touch: Way
    keys: Way
    numbers: Way | None = None


def holding(**parts: Any) -> Fits:
    """Return what tells whether an answer has exactly these parts, whatever else it has."""
    return lambda found: {name: found.get(name) for name in parts} == parts


def all_near(found: Any, wanted: Any, *, within: float = 20) -> bool:
    """Tell whether lists of places agree to some mm: a finger and a screen pixel are that coarse."""
    if not isinstance(wanted, list):
        return bool(abs(found - wanted) <= within)
    pairs = zip(found, wanted, strict=False)
    return len(found) == len(wanted) and all(all_near(one, other, within=within) for one, other in pairs)
