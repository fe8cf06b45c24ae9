"""The ``route`` kind: what is given of a cable, and what the trainee may set."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.site.fields import Flag, Point, Size

__all__ = ["RouteTask"]


class RouteTask(CableTask):
    """A cable to be run on a wall, or round a room.

    Attributes
    ----------
    start : tuple of float or None
        Where one end of it is given [mm].
    open : tuple of str
        What the trainee may set beside the points: ``depth``, ``protection``, ``rcd``, and in a room ``via``.
    zone_serves : bool
        Whether a run in the zones exists, so that no covering is called for.
    shortest : float or None
        Length of the shortest run that meets the rules, as the solver finds it [mm]; without it the
        model answer's counts.
    longest : float
        Greatest length as a multiple of that.
    """

    start: Point | None = None
    open: tuple[Literal["depth", "protection", "rcd", "via"], ...] = ()
    zone_serves: Flag = True
    shortest: Size | None = None
    longest: Annotated[float, Field(ge=1, le=100)] = 1.25

    def case_route(self, answer: RouteAnswer) -> dict[str, Any]:
        """Return the answered route as case data; what is not open stays as given."""
        return self.route_of(
            answer.points, depth=answer.depth, protection=answer.protection, rcd=answer.rcd, via=answer.via
        )
