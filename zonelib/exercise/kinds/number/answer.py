"""A number as a trainee writes it, with a decimal comma or a decimal point."""

import re
from typing import Annotated, Any

from pydantic import AfterValidator
from pydantic_core import PydanticCustomError

from zonelib.site.fields import FARTHEST, Piece

__all__ = ["NumberAnswer", "NumberFlaw", "as_number", "canonical"]

LONGEST = 40
"""Signs that a number may take."""

MINUS = "\N{MINUS SIGN}"

_WRITTEN = re.compile(r"[+-]?\d{1,9}(?:[.,]\d{1,9})?")
_TWO_WAYS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
"""Such as 1,250, which is 1250 to one reader and 1.25 to another."""


class NumberFlaw(ValueError):
    """Why a text is not taken as a number."""


def _number_or_text(value: Any) -> Any:
    if value is None or (isinstance(value, str) and len(value) <= LONGEST):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= FARTHEST:
        return value
    raise PydanticCustomError("unknown_name", "no number", {"allowed": ["a number such as 12.5 or 12,5"]})


class NumberAnswer(Piece):
    """One number, as data or as text."""

    value: Annotated[Any, AfterValidator(_number_or_text)] = None

    @property
    def empty(self) -> bool:
        """Whether nothing is written."""
        return self.value is None or (isinstance(self.value, str) and not self.value.strip())


def canonical(answer: NumberAnswer) -> Any:
    """Return the number, or the text where it is none."""
    try:
        return as_number(answer.value, unit="", allowed=(-FARTHEST, FARTHEST))
    except NumberFlaw:
        return str(answer.value).strip()


def as_number(value: float | str, *, unit: str, allowed: tuple[float, float]) -> float:
    """Return the number that was written.

    Parameters
    ----------
    value : float or str
        As it was given; a text may end with the unit.
    unit : str
        The unit that is asked.
    allowed : tuple of float
        Least and greatest number; it decides how 1,250 is read where only one way lies within.

    Raises
    ------
    NumberFlaw
        If it is no number, or one that can be read in two ways.
    """
    if not isinstance(value, str):
        return float(value)
    text = re.sub(r"\s", "", value).replace(MINUS, "-").removesuffix(unit)
    if not _WRITTEN.fullmatch(text):
        asked = f" Give it in {unit}." if unit else ""
        raise NumberFlaw(f'"{value.strip()}" is not a number. Write one such as 12.5 or 12,5.{asked}')
    return _either_way(text, allowed) if _TWO_WAYS.fullmatch(text) else float(text.replace(",", "."))


def _either_way(text: str, allowed: tuple[float, float]) -> float:
    readings = [float(text.replace(",", ".")), float(text.replace(",", ""))]
    within = [one for one in readings if allowed[0] <= one <= allowed[1]]
    if len(within) > 1:
        first, second = (f"{one:g}" for one in within)
        raise NumberFlaw(f'"{text}" can be read as {second} or as {first}. Write one of the two.')
    return within[0] if within else readings[0]
