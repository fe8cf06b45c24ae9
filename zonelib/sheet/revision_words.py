"""What the revision notebook says: one table, each entry with its blanks."""

import tomllib
from functools import cache
from importlib import resources

__all__ = ["entries", "tell"]


@cache
def entries() -> dict[str, str]:
    """Return the table."""
    text = resources.files("zonelib.sheet").joinpath("revision.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def tell(entry: str, /, **blanks: object) -> str:
    """Return one entry of the table with its blanks filled.

    >>> tell("not-yet", n=1, of=2)
    'not yet, 1 of 2 in a row'
    """
    return entries()[entry].format(**blanks)
