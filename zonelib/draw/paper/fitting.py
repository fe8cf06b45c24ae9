"""Which scale a drawing is printed at: the largest of the usual ones at which it fits."""

from dataclasses import dataclass

from zonelib.draw.paper.blocks import Plan
from zonelib.draw.printing import printed_at
from zonelib.draw.scene import Scene

__all__ = ["SCALES", "Fitted", "fitted"]

SCALES = (5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 500, 1000)
"""Scales that scale rules have: millimetres of wall to one of paper."""


@dataclass(frozen=True)
class Fitted:
    """A scene, and the scale it is printed at."""

    scene: Scene
    scale: int

    @property
    def width(self) -> float:
        """Width on paper [mm]."""
        return self.scene.view.width / self.scale

    @property
    def height(self) -> float:
        """Height on paper [mm]."""
        return self.scene.view.height / self.scale


def fitted(plan: Plan, width: float, height: float) -> Fitted:
    """Return a drawing at the largest scale at which it fits a width and height of paper [mm]."""
    tried = (_at(plan, scale) for scale in SCALES)
    return next((one for one in tried if one.width <= width and one.height <= height), _at(plan, SCALES[-1]))


def _at(plan: Plan, scale: int) -> Fitted:
    with printed_at(scale):
        return Fitted(plan.build(), scale)
