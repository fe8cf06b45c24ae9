"""The words of remedies: one table of templates, filled with what is changed."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

__all__ = ["covering_words", "put_words", "say", "table"]


@cache
def table() -> dict[str, Any]:
    """Return the table of words."""
    text = resources.files("zonelib.coach.remedies").joinpath("words.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def say(name: str, /, **facts: object) -> str:
    """Return one text, filled with facts."""
    text: str = table()["say"][name].format(**facts)
    return text[:1].upper() + text[1:]


def covering_words(name: str) -> dict[str, Any]:
    """Return what is known of a covering beside the pack: its cost, and whether it goes over a cable."""
    known: dict[str, dict[str, Any]] = table()["coverings"]
    return known.get(name, known["other"])


def put_words(name: str) -> dict[str, str]:
    """Return how a thing is put into a covering, for a sentence."""
    return {key: covering_words(name)[key] for key in ("put", "where")}
