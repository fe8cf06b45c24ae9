"""How deep tables lie inside each other: bounded before a parser or anything behind it goes there."""

import re
from collections.abc import Iterable
from typing import Any

__all__ = ["DEEPEST", "MOST_DOTS", "many_dots", "too_deep"]

DEEPEST = 32
"""Lists and tables inside each other; an exercise needs nine."""

MOST_DOTS = 200
"""Dots in one key. A TOML parser's time grows with their square: 50,000 of them take it a minute."""

_SIGNS = re.compile(r'"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|[.,=\n\[\]{}]')


def too_deep(data: Any) -> bool:
    """Tell whether lists and tables lie deeper than `DEEPEST`; each value is looked at once."""
    level = [data]
    for _ in range(DEEPEST):
        level = [inner for one in level for inner in _within(one) if isinstance(inner, dict | list)]
    return bool(level)


def _within(one: Any) -> Iterable[Any]:
    return one.values() if isinstance(one, dict) else one if isinstance(one, list) else ()


def many_dots(text: str) -> bool:
    """Tell whether a text in TOML may hold a key of more than `MOST_DOTS` parts."""
    dots = 0
    for match in _SIGNS.finditer(text):
        sign = match.group()
        dots = dots + 1 if sign == "." else dots if len(sign) > 1 else 0
        if dots > MOST_DOTS:
            return True
    return False
