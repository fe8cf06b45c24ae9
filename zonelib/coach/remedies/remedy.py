"""What a coach offers for a failed finding: a change that mends it, or the reason why there is none."""

from dataclasses import dataclass, field

from zonelib.site.model import Case

__all__ = ["Advice", "Impossible", "Remedy"]


@dataclass(frozen=True)
class Remedy:
    """A change that mends a finding.

    Attributes
    ----------
    kind : str
        What is changed, as ``move-leg`` or ``deepen``.
    words, cost : str
        What to do, and what it costs.
    case : Case
        The case with the change made.
    """

    kind: str
    words: str
    cost: str
    case: Case = field(repr=False)

    def as_data(self) -> dict[str, object]:
        """Return it as JSON data."""
        return {"kind": self.kind, "possible": True, "words": self.words, "cost": self.cost}


@dataclass(frozen=True)
class Impossible:
    """A change that somebody would think of, and why it is not possible here."""

    kind: str
    words: str

    def as_data(self) -> dict[str, object]:
        """Return it as JSON data."""
        return {"kind": self.kind, "possible": False, "words": self.words}


Advice = Remedy | Impossible
