"""The ``route`` kind: what is given of a cable, and what the trainee may set."""

from collections.abc import Iterable
from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.site.fields import Flag, Id, Number, Piece, Point, Size
from zonelib.site.model import Cable, Rcd, Side

__all__ = ["RouteTask"]


class RouteTask(Piece):
    """A cable to be run.

    Attributes
    ----------
    start : tuple of float or None
        Where one end of it is given [mm].
    open : tuple of str
        What the trainee may set beside the points: ``depth``, ``protection``, ``rcd``.
    depths : tuple of float
        Least and greatest depth the trainee may choose [mm].
    protections : tuple of str
        Coverings on offer where ``protection`` is open; empty offers all of the pack.
    zone_serves : bool
        Whether a run in the zones exists, so that no covering is called for.
    longest : float
        Greatest length as a multiple of the model answer's.
    """

    id: Id = "A"
    wall: Id
    joins: tuple[Id, ...]
    start: Point | None = None
    supply: Literal["lv", "selv", "pelv"] = "lv"
    rcd: Rcd | None = None
    cable: Cable
    depth: Number
    depth_from: Side = "front"
    protection: Id = "none"
    outer: Size | None = None
    open: tuple[Literal["depth", "protection", "rcd"], ...] = ()
    depths: tuple[Number, Number] = (0.0, 1000.0)
    protections: tuple[Id, ...] = ()
    zone_serves: Flag = True
    longest: Annotated[float, Field(ge=1, le=100)] = 1.25

    def case_route(self, answer: RouteAnswer) -> dict[str, Any]:
        """Return the answered route as case data; what is not open stays as given."""
        legs = len(answer.points) - 1
        given = self.model_dump(include={"id", "wall", "joins", "supply", "cable", "depth_from", "outer"})
        set_here = {
            "points": [list(point) for point in answer.points],
            "depth": self._per_leg("depth", answer.depth, [self.depth] * legs),
            "protection": self._per_leg("protection", answer.protection, [self.protection] * legs),
            "rcd": self._rcd(answer),
        }
        return {key: value for key, value in {**given, **set_here}.items() if value is not None}

    def _per_leg(self, name: str, answered: tuple[Any, ...] | None, given: list[Any]) -> list[Any]:
        opened = name in self.open and answered is not None
        return list(answered or ()) if opened else given

    def _rcd(self, answer: RouteAnswer) -> dict[str, Any] | None:
        rcd = answer.rcd if "rcd" in self.open else self.rcd
        return rcd.model_dump() if rcd else None

    def offered(self, known: Iterable[str]) -> tuple[str, ...]:
        """Return the coverings on offer, of those a pack knows."""
        return self.protections or tuple(known)
