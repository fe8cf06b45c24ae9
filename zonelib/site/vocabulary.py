"""The names a case may use, handed down by the pack that will judge it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["Vocabulary"]


@dataclass(frozen=True)
class Vocabulary:
    """Names a case file may use.

    Attributes
    ----------
    builds, kinds, protections : tuple of str
        Builds of walls, kinds of accessories, and protections of cables.
    readings : mapping of str to tuple of str
        Each reading's name and its values.
    """

    builds: tuple[str, ...]
    kinds: tuple[str, ...]
    protections: tuple[str, ...]
    readings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def names(self, group: str) -> tuple[str, ...]:
        """Return the names of one group: ``builds``, ``kinds`` or ``protections``."""
        names: tuple[str, ...] = getattr(self, group)
        return names
