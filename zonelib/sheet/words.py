"""What the sheet says to a trainee: one table, each entry with its blanks."""

import tomllib
from functools import cache
from importlib import resources

__all__ = ["entries", "say"]


@cache
def entries() -> dict[str, str]:
    """Return the table."""
    return tomllib.loads(resources.files("zonelib.sheet").joinpath("words.toml").read_text(encoding="utf-8"))


def say(entry: str, /, **blanks: object) -> str:
    """Return one entry of the table with its blanks filled.

    >>> say("attempt", n=2, time="14:02")
    'Check 2, 14:02'
    """
    return entries()[entry].format(**blanks)
