"""What the survey says: one table, each entry with its blanks."""

import tomllib
from functools import cache
from importlib import resources

__all__ = ["say"]


@cache
def _entries() -> dict[str, str]:
    text = resources.files("zonelib.sheet.survey").joinpath("words.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def say(entry: str, /, **blanks: object) -> str:
    """Return one entry of the table with its blanks filled.

    >>> say("turn-right", angle="90")
    'then 90 degrees to the right'
    """
    return _entries()[entry].format(**blanks)
