"""Which scale a drawing is printed at: the largest of the usual ones at which it fits."""

from dataclasses import dataclass
from functools import lru_cache

from zonelib.draw.paper.blocks import Plan
from zonelib.draw.printing import printed_at
from zonelib.draw.scene import Scene

__all__ = ["SCALES", "Fitted", "fitted"]

SCALES = (5, 10, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 500, 1000)
"""Millimetres of wall to one of paper: what scale rules have, and two between for long walls."""


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


@lru_cache(maxsize=256)
def fitted(plan: Plan, width: float, height: float, *, smaller: int = 0) -> Fitted:
    """Return a drawing at the largest scale at which it fits a width and height of paper [mm].

    With `smaller` it is so many steps smaller than that.
    """
    largest = next(
        (n for n, scale in enumerate(SCALES) if _fits(_at(plan, scale), width, height)), len(SCALES)
    )
    return _at(plan, SCALES[min(largest + smaller, len(SCALES) - 1)])


def _fits(one: Fitted, width: float, height: float) -> bool:
    return one.width <= width and one.height <= height


@lru_cache(maxsize=256)
def _at(plan: Plan, scale: int) -> Fitted:
    with printed_at(scale):
        return Fitted(plan.build(), scale)
