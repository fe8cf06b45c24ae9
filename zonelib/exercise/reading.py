"""Text of unknown origin as JSON, bounded before anything in it is believed."""

import json
import math
import re
from typing import Any

from zonelib.site.faults import Fault, FileFault

__all__ = ["DEEPEST", "bounded_json"]

DEEPEST = 32
"""Lists and tables inside each other; an answer needs five."""

_SIGNS = re.compile(r'\\.|["\[\]{}]', re.DOTALL)


def bounded_json(text: str | bytes, *, what: str, form: str, largest: int, most: int) -> Any:
    """Return the data of a text, refused at once where it is out of all proportion.

    Parameters
    ----------
    text : str or bytes
        What was read.
    what, form : str
        What to call it, and what it should have been, in messages.
    largest, most : int
        Size [bytes], and number of values in it.

    Raises
    ------
    FileFault
        If it is too large, too deep, holds too much, is not JSON, or holds a number that is not finite.
    """
    try:
        return _parsed(text, largest=largest, most=most)
    except _Refused as refused:
        raise FileFault(what, [Fault("the file", *refused.args)]) from refused
    except (ValueError, RecursionError) as error:
        raise FileFault(what, [Fault("the file", "text that is not JSON", form)]) from error


class _Refused(Exception):
    """What was found, and what is allowed."""


def _parsed(text: str | bytes, *, largest: int, most: int) -> Any:
    if len(text) > largest:
        raise _Refused(f"{len(text):,} bytes", f"at most {largest:,} bytes")
    plain = text if isinstance(text, str) else text.decode("utf-8-sig")
    if plain.count(",") >= most:
        raise _Refused(f"{plain.count(',') + 1:,} values", f"at most {most:,} values")
    if _too_deep(plain):
        raise _Refused("lists inside lists, very deep", f"at most {DEEPEST} inside each other")
    return json.loads(plain, parse_constant=_finite, parse_float=_finite)


def _too_deep(text: str) -> bool:
    """Tell whether brackets outside of quotes lie too deep; one pass, whatever the text."""
    depth, quoted = 0, False
    for match in _SIGNS.finditer(text):
        sign = match.group()
        if sign == '"':
            quoted = not quoted
        elif not quoted and sign in "[{":
            depth += 1
            if depth > DEEPEST:
                return True
        elif not quoted and sign in "]}":
            depth -= 1
    return False


def _finite(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        raise _Refused(f"the number {digits[:20]}", "finite numbers")
    return number
