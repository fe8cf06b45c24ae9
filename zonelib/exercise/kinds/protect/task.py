"""The ``protect`` kind: a whole route as given, and what the trainee may set of it."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.kinds.protect.answer import ProtectAnswer
from zonelib.site.fields import Point

__all__ = ["ProtectTask"]


class ProtectTask(CableTask):
    """A route that stays where it is.

    Attributes
    ----------
    points : tuple of points
        The given route [mm].
    open : tuple of str
        What the trainee may set: by default depth, covering and RCD.
    """

    points: Annotated[tuple[Point, ...], Field(min_length=2, max_length=200)]
    open: tuple[Literal["depth", "protection", "rcd"], ...] = ("depth", "protection", "rcd")

    def case_route(self, answer: ProtectAnswer | None = None) -> dict[str, Any]:
        """Return the route with an answer's choices, or as it is given, as case data."""
        if answer is None:
            return self.route_of(self.points, depth=None, protection=None, rcd=self.rcd)
        return self.route_of(self.points, depth=answer.depth, protection=answer.protection, rcd=answer.rcd)
