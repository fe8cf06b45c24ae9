"""Checks against the world: the mark that names a value's source and grade, and all tests that carry it."""

import importlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

GRADES = {
    "Q": "wording seen quoted",
    "P": "paraphrased by published guidance",
    "T": "published table or worked value",
    "C": "common practice",
    "M": "from memory",
    "D": "by arithmetic",
}
WITHOUT_DOCUMENT = {"P": "published guidance", "C": "common practice", "D": "arithmetic"}


@dataclass(frozen=True)
class Check:
    """One check of a rule against a value that does not come from this code.

    A check without rules holds numbers that no rule uses, such as the sizes of cables.
    """

    rules: tuple[str, ...]
    source: str
    grade: str
    pack: str
    test: str


def stated(said: str, *rules: str, pack: str = "uk") -> pytest.MarkDecorator:
    """Return the mark of one row of a table, from what the row says of its source.

    >>> stated(".202(i) Q", "wall-zone").kwargs["source"]
    'BS 7671 522.6.202(i)'
    """
    words, _, grade = said.rpartition(" ")
    source = words or WITHOUT_DOCUMENT[grade]
    source = f"BS 7671 522.6{source}" if source.startswith(".") else source
    return pytest.mark.outside(*rules, source=source, grade=grade, pack=pack)


def checks(folder: Path = Path(__file__).parent) -> Iterator[Check]:
    """Yield the checks that the tests of a folder declare, each row of a table on its own."""
    for path in sorted(folder.glob("test_*.py")):
        module = importlib.import_module(f"tests.rules.{path.stem}")
        for name, test in vars(module).items():
            if name.startswith("test_"):
                yield from (_check(mark, f"{path.name}::{name}") for mark in _marks(test))


def _marks(test: object) -> Iterator[pytest.Mark]:
    for mark in getattr(test, "pytestmark", ()):
        if mark.name == "outside":
            yield mark
        for row in mark.args[1] if mark.name == "parametrize" else ():
            yield from (one for one in getattr(row, "marks", ()) if one.name == "outside")


def _check(mark: pytest.Mark, test: str) -> Check:
    return Check(mark.args, mark.kwargs["source"], mark.kwargs["grade"], mark.kwargs.get("pack", "uk"), test)
