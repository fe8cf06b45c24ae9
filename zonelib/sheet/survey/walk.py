"""A plan as one measures it: wall after wall with the room on the right, and the turn at each one's end."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from zonelib.site.tolerance import TOLERANCE

__all__ = ["CLOSED", "ONCE_ROUND", "SPREAD", "Walk"]

Point = tuple[float, float]

ONCE_ROUND = 360.0
"""All turns to the right add up to this [degrees]."""

CLOSED = 1.0
"""A plan closes where its ends are no farther apart: nobody measures finer [mm]."""

SPREAD = 0.02
"""A gap up to this share of the way round may come from measuring, and can be spread over the walls."""


@dataclass(frozen=True)
class Walk:
    """A way along the walls of a room, begun northwards on the plan.

    Attributes
    ----------
    lengths : tuple of float
        Of each wall [mm].
    turns : tuple of float
        At the end of each wall, to the right above 0 [degrees].
    """

    lengths: tuple[float, ...]
    turns: tuple[float, ...]

    @cached_property
    def legs(self) -> tuple[Point, ...]:
        """Each wall as a step to the right and up the page [mm]."""
        made, heading = list[Point](), 0.0
        for length, turn in zip(self.lengths, self.turns, strict=True):
            way = math.radians(heading)
            made.append((length * math.sin(way), length * math.cos(way)))
            heading += turn
        return tuple(made)

    @cached_property
    def corners(self) -> tuple[Point, ...]:
        """Where each wall begins, and where the last one ends [mm]."""
        return _chained(self.legs)

    @property
    def gap(self) -> Point:
        """From where the last wall ends to where the first began: right and up the page [mm]."""
        x, y = self.corners[-1]
        return _tenth(-x), _tenth(-y)

    @property
    def open_by(self) -> float:
        """How far the ends are apart [mm]."""
        return math.hypot(*self.gap)

    @property
    def turned(self) -> float:
        """All turns together [degrees]."""
        return sum(self.turns)

    @property
    def closes(self) -> bool:
        """Whether the last wall ends where the first began."""
        return len(self.lengths) > 2 and self.open_by <= CLOSED + TOLERANCE  # noqa: PLR2004  a room has three walls

    @property
    def may_spread(self) -> bool:
        """Whether the gap is small enough to come from measuring."""
        return len(self.lengths) > 2 and self.open_by <= SPREAD * sum(self.lengths)  # noqa: PLR2004

    def plan(self) -> tuple[Point, ...]:
        """Return the plan, what is left of a gap spread over the walls by their share of the way [mm].

        Across and up are spread apart, so that a wall that runs level or upright on the page still does.
        """
        across, upward = self.gap
        most = [sum(abs(leg[axis]) for leg in self.legs) or 1.0 for axis in (0, 1)]
        legs = [(x + across * abs(x) / most[0], y + upward * abs(y) / most[1]) for x, y in self.legs]
        return tuple((_tenth(x), _tenth(y)) for x, y in _chained(legs)[:-1])

    def closers(self) -> Iterator[tuple[int, float]]:
        """Yield each wall that would close the plan with another length: its number and that length [mm]."""
        for number, ((x, y), length) in enumerate(zip(self.legs, self.lengths, strict=True), start=1):
            along = (x * self.gap[0] + y * self.gap[1]) / length
            aside = abs(x * self.gap[1] - y * self.gap[0]) / length
            if aside <= CLOSED and length + along > CLOSED:
                yield number, round(length + along)


def _chained(legs: Sequence[Point]) -> tuple[Point, ...]:
    places = [(0.0, 0.0)]
    for across, up in legs:
        places.append((places[-1][0] + across, places[-1][1] + up))
    return tuple(places)


def _tenth(value: float) -> float:
    return round(value, 1) + 0.0  # no -0.0: it would be shown to a reader
