"""A joist on the bench, with the lengths its rules compare."""

from dataclasses import dataclass

import shapely
from shapely import Point, Polygon

from zonelib.rules.timber_bench import Bench
from zonelib.rules.timber_limits import JoistLimits
from zonelib.site.timber import Hole, Joist, Notch

__all__ = ["JoistBench", "notch_box"]


@dataclass(frozen=True)
class JoistBench(Bench):
    """A joist with the limits that apply to it.

    Attributes
    ----------
    joist, limits : Joist, JoistLimits
        The member and what the pack allows.
    """

    joist: Joist
    limits: JoistLimits

    def covers(self, hole: Hole) -> dict[str, float]:
        """Return the timber from a hole to the bottom and to the top [mm]."""
        radius = hole.diameter / 2
        return {"bottom": hole.y - radius, "top": self.joist.depth - hole.y - radius}

    def from_support(self, x: float) -> float:
        """Return the distance from the nearest support [mm]."""
        return min(x, self.joist.span - x)

    def between_holes(self, one: Hole, other: Hole) -> float:
        """Return the clear distance of two holes, below 0 where they overlap [mm]."""
        radii = (one.diameter + other.diameter) / 2
        if self.limits.gaps == "along-span":
            return abs(one.x - other.x) - radii
        return Point(one.x, one.y).distance(Point(other.x, other.y)) - radii

    def between(self, notch: Notch, hole: Hole) -> float:
        """Return the clear distance of a notch and a hole, below 0 where they overlap [mm]."""
        if self.limits.gaps == "along-span":
            return abs(notch.x - hole.x) - notch.length / 2 - hole.diameter / 2
        return Point(hole.x, hole.y).distance(notch_box(self.joist, notch)) - hole.diameter / 2


def notch_box(joist: Joist, notch: Notch) -> Polygon:
    """Return what a notch takes away, in the joist's elevation [mm]."""
    low = joist.depth - notch.depth if notch.edge == "top" else 0.0
    left, right = notch.x - notch.length / 2, notch.x + notch.length / 2
    return shapely.box(left, low, right, low + notch.depth)
