"""What a trainee ticked."""

from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Id, Piece

__all__ = ["ChooseAnswer", "canonical"]

MOST = 100
"""More choices than any question has; a bound on what is read."""


class ChooseAnswer(Piece):
    """The ids of the ticked choices, in any order."""

    chosen: Annotated[tuple[Id, ...], Field(max_length=MOST)] = ()


def canonical(answer: ChooseAnswer) -> Any:
    """Return the ticked ids, each once and in order."""
    return sorted(set(answer.chosen))
