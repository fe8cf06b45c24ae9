"""What a trainee chooses for a given route."""

from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Id, Number, Piece
from zonelib.site.model import Rcd

__all__ = ["ProtectAnswer", "canonical"]

MOST_LEGS = 200
"""More legs than any real run has; a bound on what is read."""


class ProtectAnswer(Piece):
    """Depth [mm] and protection of each leg of the given route, and the RCD; what is left out is as given."""

    depth: Annotated[tuple[Number, ...], Field(max_length=MOST_LEGS)] | None = None
    protection: Annotated[tuple[Id, ...], Field(max_length=MOST_LEGS)] | None = None
    rcd: Rcd | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing has been chosen."""
        return not self.depth and not self.protection and self.rcd is None


def canonical(answer: ProtectAnswer) -> Any:
    """Return an answer's data with every default in it."""
    return answer.model_dump()
