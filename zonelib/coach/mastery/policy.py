"""When a rule counts as mastered, as data: the library's own, or a tutor's."""

import tomllib
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Id, Piece
from zonelib.site.load import read_data

__all__ = ["FILE", "Family", "Policy", "policy", "read_policy"]

FILE = "mastery.toml"

Share = Annotated[float, Field(ge=0, le=1)]


class Family(Piece):
    """Rules that are revised together, under the name a trainee reads."""

    words: Annotated[str, Field(min_length=1, max_length=80)]
    rules: tuple[Id, ...]


class Policy(Piece):
    """When a rule counts as mastered.

    Attributes
    ----------
    in_a_row : int
        In how many different exercises or variants, one after the other, a rule must be met.
    enough, little : float
        Shares of a rule's marks: from `enough` on it is met, below `little` it is as good as new.
    most_hints : int
        With more hints open an exercise shows nothing mastered.
    critical : tuple of str
        Rules that must be met in full, always.
    families : dict of str to Family
        Rules that are revised together.
    """

    schema_version: Literal[1] = Field(alias="schema")
    in_a_row: Annotated[int, Field(ge=1, le=20)] = 2
    enough: Share = 0.8
    most_hints: Annotated[int, Field(ge=0, le=3)] = 2
    little: Share = 0.5
    critical: tuple[Id, ...] = ()
    families: dict[str, Family] = Field(default_factory=dict)

    def level(self, rule: str) -> float:
        """Return the share of a rule's marks at which it is met."""
        return 1.0 if rule in self.critical else self.enough

    def family(self, rule: str) -> str:
        """Return the family of a rule; one that is in none is a family of its own."""
        return next((name for name, one in self.families.items() if rule in one.rules), rule)

    def words(self, family: str) -> str:
        """Return what a trainee reads for a family, or for a rule that is in none."""
        found = self.families.get(family)
        return found.words if found else family.replace("-", " ").capitalize()


@cache
def policy() -> Policy:
    """Return the library's own."""
    return Policy.model_validate(_own())


def _own() -> dict[str, Any]:
    text = resources.files("zonelib.coach.mastery").joinpath(FILE).read_text(encoding="utf-8")
    return tomllib.loads(text)


def read_policy(path: Path) -> Policy:
    """Read a tutor's file; what it leaves out is as in the library's own.

    Raises
    ------
    FileFault
        If it cannot be read, or holds what it may not.
    """
    data = {**_own(), **read_data(path)}
    try:
        return Policy.model_validate(data)
    except ValidationError as error:
        raise FileFault(str(path), faults_of(error, data, Policy)) from error
