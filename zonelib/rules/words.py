"""The words of findings: one table of templates, filled with what was measured."""

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib import resources
from itertools import groupby

from zonelib.site.tolerance import above, below

__all__ = ["beside", "leg_words", "letter", "listed", "mm", "templates", "words"]


MOST_LETTERED = 2
"""Groups of legs that are named with the letters of their ends."""


@cache
def templates() -> dict[str, dict[str, dict[str, str]]]:
    """Return the table: rule, then outcome, then ``reason`` and ``text``."""
    return tomllib.loads(resources.files("zonelib.rules").joinpath("words.toml").read_text(encoding="utf-8"))


def words(rule: str, outcome: str, **facts: object) -> tuple[str, str]:
    """Return reason and text of one outcome of a rule, filled with facts."""
    template = templates()[rule][outcome]
    text = template["text"].format(**facts)
    return template["reason"].format(**facts), text[:1].upper() + text[1:]


def mm(value: float, *, places: int = 1) -> str:
    """Return a length as a reader writes it.

    >>> mm(1250.0), mm(46.34), mm(46.34, places=3)
    ('1,250', '46.3', '46.34')
    """
    text = f"{round(value, places) + 0.0:,.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def beside(measured: float, limit: float) -> str:
    """Return a measured length with enough places to differ from its limit where it does.

    >>> beside(49.96, 50.0)
    '49.96'
    """
    differs = above(measured, limit) or below(measured, limit)
    for places in (1, 2, 3):
        text = mm(measured, places=places)
        if not differs or text != mm(limit, places=places):
            return text
    return mm(measured, places=4)


def letter(point: int) -> str:
    """Return the letter of a route's point, counted from 0.

    >>> letter(0), letter(25), letter(26)
    ('a', 'z', 'a1')
    """
    turn, place = divmod(point, 26)
    return "abcdefghijklmnopqrstuvwxyz"[place] + (str(turn) if turn else "")


def leg_words(numbers: Iterable[int]) -> str:
    """Return legs as words, with the letters of their ends where that keeps a sentence short.

    >>> leg_words([2]), leg_words([1, 2, 4]), leg_words([1, 3, 5, 6])
    ('leg 2 (b to c)', 'legs 1 to 2 (a to c) and 4 (d to e)', 'legs 1, 3 and 5 to 6')
    """
    numbers = list(numbers)
    groups = [list(group) for group in _unbroken(numbers)]
    runs = [_run(group, lettered=len(groups) <= MOST_LETTERED) for group in groups]
    return ("leg " if len(numbers) == 1 else "legs ") + listed(runs)


def listed(parts: list[str]) -> str:
    """Return parts as a list in words.

    >>> listed(["a"]), listed(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    return " and ".join(filter(None, [", ".join(parts[:-1]), *parts[-1:]]))


def _unbroken(numbers: list[int]) -> Iterable[list[int]]:
    keyed = enumerate(numbers)
    groups = groupby(keyed, key=lambda pair: pair[1] - pair[0])
    return ([number for _, number in group] for _, group in groups)


def _run(group: list[int], *, lettered: bool) -> str:
    span = f"{group[0]} to {group[-1]}" if len(group) > 1 else str(group[0])
    return f"{span} ({letter(group[0] - 1)} to {letter(group[-1])})" if lettered else span
