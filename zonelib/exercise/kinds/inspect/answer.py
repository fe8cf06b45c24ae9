"""What a trainee finds in an installation."""

from typing import Annotated, Any

from pydantic import Field

from zonelib.site.fields import Flag, Id, Number, Piece

__all__ = ["InspectAnswer", "Stretch", "canonical"]

MOST_STRETCHES = 60
MOST_ROUTES = 40


class Stretch(Piece):
    """A stretch that is marked as failing, with clause, remedy and reason.

    It runs from one mark to another along the cable from its first point [mm]; without marks it is
    the cable as a whole.
    """

    route: Id
    start: Annotated[Number | None, Field(alias="from")] = None
    to: Number | None = None
    clause: Id | None = None
    remedy: Id | None = None
    why: Id | None = None


class InspectAnswer(Piece):
    """Marked stretches in any order, and by route whether it would pass as new work."""

    stretches: Annotated[tuple[Stretch, ...], Field(max_length=MOST_STRETCHES)] = ()
    passes: Annotated[dict[Id, Flag], Field(max_length=MOST_ROUTES)] = Field(default_factory=dict)


def canonical(answer: InspectAnswer) -> Any:
    """Return the stretches in one order, each once and from its lower mark, and the passes by name."""
    stretches = {repr(sorted(_upwards(one).items(), key=str)) for one in answer.stretches}
    return sorted(stretches), sorted(answer.passes.items())


def _upwards(one: Stretch) -> dict[str, Any]:
    data = one.model_dump(by_alias=True)
    if one.start is not None and one.to is not None:
        data["from"], data["to"] = min(one.start, one.to), max(one.start, one.to)
    return data
