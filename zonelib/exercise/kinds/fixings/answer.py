"""Where a trainee hangs each thing."""

from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Id, Piece, Point

__all__ = ["FixingsAnswer", "canonical"]

MOST_PLACES = 40


class FixingsAnswer(Piece):
    """By the name of each thing, where its lower left corner is [mm, front view]."""

    places: Annotated[dict[Id, Point], Field(max_length=MOST_PLACES)] = Field(default_factory=dict)


def canonical(answer: FixingsAnswer) -> Any:
    """Return the places in the order of the names."""
    return sorted(answer.places.items())
