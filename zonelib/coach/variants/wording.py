"""The texts of an exercise with the numbers of another room."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from zonelib.coach.variants.places import PlaceFlaw, Places
from zonelib.rules.words import mm

__all__ = ["phrases_of", "reworded", "said", "stale_numbers", "unsaid_phrases"]

Data = dict[str, Any]
Values = Mapping[str, Any]
Known = tuple[Places, Values]
"""What a sum is taken over: an exercise's places, and what was drawn."""

BRACES = re.compile(r"\{([^{}:]*)(?::(\d?)(,?))?\}")
TEXTS = ("title", "question")
NUMBER = re.compile(r"(?<![\w.,])\d[\d,]*(?:\.\d+)?(?![\w]|[.,]\d)")


def said(template: str, places: Places, values: Values) -> str:
    """Return a phrase with its numbers, as ``700`` or ``33.3``.

    ``{D1.x:2}`` asks for two places, ``{D1.x:,}`` for ``1,600`` in place of ``1600``.
    """

    def number(found: re.Match[str]) -> str:
        return _shown(places.sum(found[1], values), int(found[2] or 1), comma=found[3] or "")

    return BRACES.sub(number, template)


def _shown(value: Any, places: int = 1, *, comma: str = "") -> str:
    return mm(value, places=places).replace(",", comma) if isinstance(value, int | float) else str(value)


def reworded(data: Data, phrases: Mapping[str, str]) -> None:
    """Put other phrases for those of the plain exercise, in every text, in place."""
    if not phrases:
        return
    longest_first = sorted(phrases, key=len, reverse=True)
    pattern = re.compile("|".join(_bounded(one) for one in longest_first))
    _each_text(data, lambda text: pattern.sub(lambda found: phrases[found[0]], text))


def _bounded(phrase: str) -> str:
    """Return a pattern of a phrase that stands by itself: 50 is no part of 150."""
    before = r"(?<![\w.,])" if phrase[:1].isalnum() else ""
    after = r"(?!\w)" if phrase[-1:].isalnum() else ""
    return f"{before}{re.escape(phrase)}{after}"


def _each_text(data: Data, change: Callable[[str], str]) -> None:
    for holder, name in _spoken(data):
        holder[name] = change(holder[name])


def _spoken(data: Data) -> Iterator[tuple[Data, str]]:
    """Yield each text that a trainee or a tutor reads, as what holds it and its key."""
    yield from ((data, name) for name in TEXTS)
    hints = data.get("hints") or {}
    yield from ((hints, name) for name in hints)
    parts = (one for one in data[data["kind"]].values() if isinstance(one, list))
    offered = (one for part in parts for one in part if isinstance(one, dict))
    for one in (*data.get("wrong", ()), *data.get("criteria", ()), *offered):
        yield from ((one, name) for name in ("words", "why") if isinstance(one.get(name), str))


def phrases_of(templates: Iterable[str], *, plain: Known, new: Known) -> dict[str, str]:
    """Return for each phrase of the plain exercise what it becomes.

    Raises
    ------
    FileFault
        If two phrases read alike and would become different ones.
    """
    found: dict[str, str] = {}
    for template in templates:
        before, after = said(template, *plain), said(template, *new)
        if found.setdefault(before, after) != after:
            allowed = "more of the words around one of them, so that they differ"
            raise PlaceFlaw("variants.words", f'"{before}" for two phrases', allowed)
    return found


def unsaid_phrases(data: Data, phrases: Mapping[str, str]) -> list[str]:
    """Return the phrases that stand in no text."""
    texts = list(_texts(data))
    return [one for one in phrases if not any(re.search(_bounded(one), text) for text in texts)]


def _texts(data: Data) -> Iterator[str]:
    yield from (holder[name] for holder, name in _spoken(data))


def stale_numbers(data: Data, phrases: Mapping[str, str], numbers: Mapping[str, float]) -> dict[str, str]:
    """Return numbers of places that will change, and that a text says outside of every phrase, by place."""
    pattern = re.compile("|".join(map(_bounded, sorted(phrases, key=len, reverse=True))) or "(?!)")
    left = " ".join(pattern.sub("", text) for text in _texts(data))
    said_numbers = {text.replace(",", "") for text in NUMBER.findall(left)}
    return {name: _shown(value) for name, value in numbers.items() if _shown(value) in said_numbers}
