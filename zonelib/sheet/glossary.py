"""The trade terms, explained in plain words: one table that lessons and glossary read."""

import tomllib
from functools import cache
from importlib import resources

from zonelib.sheet.showing import show
from zonelib.site.fields import Piece

__all__ = ["Term", "glossary", "glossary_page"]


class Term(Piece):
    """One trade term.

    Attributes
    ----------
    term : str
        As it is shown.
    words : str
        What it means.
    first : str
        Number of the lesson that explains it.
    forms : tuple of str
        Other forms it stands in, such as its plural.
    """

    term: str
    words: str
    first: str
    forms: tuple[str, ...] = ()


@cache
def glossary() -> dict[str, Term]:
    """Return the terms by their short names, in the order of the table."""
    text = resources.files("zonelib.sheet").joinpath("glossary.toml").read_text(encoding="utf-8")
    return {name: Term.model_validate(entry) for name, entry in tomllib.loads(text).items()}


def glossary_page() -> None:
    """Show every term from A to Z."""
    terms = sorted(glossary().values(), key=lambda one: one.term.lower())
    rows = [f"**{one.term}** – {one.words} (Lesson {int(one.first)}.)" for one in terms]
    show({"text/markdown": "\n\n".join(rows), "text/plain": "\n\n".join(rows)})
