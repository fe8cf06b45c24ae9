"""The library of misconceptions, as data: each a small change to the rules."""

import tomllib
from functools import cache
from importlib import resources
from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Piece

__all__ = ["Misconception", "library"]

Words = Annotated[str, Field(min_length=1)]


class Misconception(Piece):
    """What somebody takes for granted, as a change to the rules.

    Attributes
    ----------
    words, truth : str
        What is taken for granted, and what is so.
    set, drop, zones : dict, tuple, tuple
        Changes of the pack: values by their dotted path, paths left out, zones added.
    readings : dict
        Readings of the case.
    change, redraw, excuses : str
        Changes in code: of pack and case, of walls as they are made, and failures of an answered route
        that are passed over.
    rules : tuple of str
        All rules whose findings it can change.
    occasion : str
        What a case must hold for it to show at all; "" where any will do.
    bars : bool
        Whether it can make an answer fail that is right; otherwise it allows more, and forbids nothing.
    kinds : tuple of str
        The kinds of exercise in which it plays a part; empty for all.
    """

    id: Words
    words: Words
    truth: Words
    set: dict[str, Any] = Field(default_factory=dict)
    drop: tuple[str, ...] = ()
    zones: tuple[dict[str, Any], ...] = ()
    readings: dict[str, str] = Field(default_factory=dict)
    change: str = ""
    redraw: str = ""
    excuses: str = ""
    rules: tuple[str, ...]
    occasion: str = ""
    bars: bool = False
    kinds: tuple[str, ...] = ()


@cache
def library() -> dict[str, Misconception]:
    """Return the misconceptions by name."""
    text = (
        resources.files("zonelib.coach.diagnosis").joinpath("misconceptions.toml").read_text(encoding="utf-8")
    )
    return {name: Misconception(id=name, **one) for name, one in tomllib.loads(text).items()}
