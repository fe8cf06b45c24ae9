"""What the server does not do, and why, in words for the one who asked."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

__all__ = ["Refusal", "entries", "say"]


class Refusal(Exception):
    """A request that is not carried out.

    Parameters
    ----------
    status : int
        HTTP status.
    entry : str
        Name of the words in ``words.toml``; a page tells cases apart by it.
    more : dict, optional
        What a page needs beside the words.
    **blanks
        What fills the words' blanks.
    """

    def __init__(
        self, status: int, entry: str, *, more: dict[str, Any] | None = None, **blanks: object
    ) -> None:
        self.status, self.entry, self.more = status, entry, more or {}
        self.words = say(entry, **blanks)
        super().__init__(self.words)


@cache
def entries() -> dict[str, str]:
    """Return the table of words."""
    text = resources.files("zonelib.desk.server").joinpath("words.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def say(entry: str, /, **blanks: object) -> str:
    """Return one entry of the table with its blanks filled."""
    return entries()[entry].format(**blanks)
