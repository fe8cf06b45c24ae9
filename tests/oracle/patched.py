"""The rear of a room's wall: behind another room it is that room's front, elsewhere its own."""

from __future__ import annotations

from dataclasses import dataclass

from tests.oracle.sheet import Ground, Line, Sheet

__all__ = ["Patch", "Patched"]


@dataclass(frozen=True)
class Patch:
    """The front of another room's wall, seen through this one: an x there is `at` minus x here [mm]."""

    left: float
    right: float
    at: float
    sheet: Sheet


@dataclass(frozen=True)
class Patched(Ground):
    """A rear put together from the fronts of the walls behind.

    Attributes
    ----------
    own : Sheet
        The rear where no room lies behind.
    patches : tuple of Patch
        What lies behind.
    """

    own: Sheet
    patches: tuple[Patch, ...]

    def in_zone(self, x: float, y: float) -> bool:
        """Ask whichever room the point belongs to."""
        for patch in self.patches:
            if patch.left < x < patch.right:
                return patch.sheet.in_zone(patch.at - x, y)
        return self.own.in_zone(x, y)

    def places(self) -> list[float]:
        """Return the places of all parts, and where each part ends [mm]."""
        theirs = [p.at - x for p in self.patches for x in [*p.sheet.places(), 0.0, p.sheet.length]]
        return [*self.own.places(), *theirs, *(x for p in self.patches for x in (p.left, p.right))]

    def heights(self) -> list[float]:
        """Return the heights of all parts [mm]."""
        return [*self.own.heights(), *(y for p in self.patches for y in p.sheet.heights())]

    def slopes(self) -> tuple[Line, ...]:
        """Return those of the wall itself: rooms side by side are drawn equally high, with level ceilings."""
        return self.own.slopes()
