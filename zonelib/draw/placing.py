"""Where labels go: the first free spot of a fixed list, so that one case always gives one drawing."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from zonelib.draw.shapes import Box, Point, Text

__all__ = ["Placer", "Spot", "beside", "nearest", "spread"]

GAPS = (0.2, 1.4, 2.8, 4.5, 7.0)
"""Distances of a label from what it names, nearest first [em]."""

LEADER_FROM = 1.0
"""A label farther off than this gets a line to what it names [em]."""

_SIDES = ((0, -1), (0, 1), (1, 0), (-1, 0), (1, -1), (-1, -1), (1, 1), (-1, 1))


class Spot(NamedTuple):
    """A place for a label: its centre [mm], which way it reads, what it costs, where its leader ends."""

    x: float
    y: float
    cost: float = 0.0
    turned: bool = False
    target: Point | None = None


class Placer:
    """Keeps what is taken, and finds free spots.

    Parameters
    ----------
    stage : Box
        Labels stay inside it [mm].
    """

    def __init__(self, stage: Box) -> None:
        self.stage = stage
        self.taken: list[Box] = []
        self._lines: list[_Crossed] = []

    def block(self, box: Box) -> None:
        """Take a box: no label may touch it."""
        self.taken.append(box)

    def avoid(self, points: Sequence[Point], cost: float) -> None:
        """Make labels that a line crosses dearer."""
        self._lines.extend(_crossed(start, end, cost) for start, end in pairwise(points))

    def free(self, box: Box) -> bool:
        """Tell whether a box is on the stage and touches nothing taken."""
        left, bottom, right, top = box.left, box.bottom, box.right, box.top
        return self.stage.holds(box) and not any(
            left < other.right and other.left < right and bottom < other.top and other.bottom < top
            for other in self.taken
        )

    def place(self, text: Text, spots: Iterable[Spot], *, dearest: float = 99.0) -> tuple[Text, Spot] | None:
        """Put a text on its cheapest free spot and take it; None where none costs less than the dearest."""

        def box_at(spot: Spot) -> Box:
            return text.box_at(spot.x, spot.y, turned=spot.turned)

        spot = self.find(box_at, spots, dearest=dearest)
        return (replace(text, x=spot.x, y=spot.y, turned=spot.turned), spot) if spot else None

    def find(
        self, box_at: Callable[[Spot], Box], spots: Iterable[Spot], *, dearest: float = 99.0
    ) -> Spot | None:
        """Return the cheapest spot whose box is free, and take that box and the leader to it."""
        best, least = None, dearest
        for spot in spots:
            if spot.cost >= least:
                continue
            box = box_at(spot)
            if self._fits(box, spot) and (cost := spot.cost + self.crossings(box)) < least:
                best, least = spot, cost
        if best:
            self._take(box_at(best), best)
        return best

    def crossings(self, box: Box) -> float:
        """Return what the lines that cross a box cost."""
        left, bottom, right, top = box.left, box.bottom, box.right, box.top
        return sum(
            line[6]
            for line in self._lines
            if line[0] < right and line[2] > left and line[1] < top and line[3] > bottom
            if _crosses(line[4], line[5], box)
        )

    def _fits(self, box: Box, spot: Spot) -> bool:
        if not self.free(box):
            return False
        if spot.target is None:
            return True
        start, end = nearest(box, spot.target), spot.target
        return not any(_crosses(start, end, other) and not _at_edge(end, other) for other in self.taken)

    def _take(self, box: Box, spot: Spot) -> None:
        self.block(Box(box.left - 0.2 * box.height, box.bottom, box.right + 0.2 * box.height, box.top))
        if spot.target is not None:
            self._lines.append(_crossed(nearest(box, spot.target), spot.target, 50.0))


_Crossed = tuple[float, float, float, float, Point, Point, float]
"""A line with its bounds before its ends, and its cost: most lines are far from a label, and soon told so."""


def _crossed(start: Point, end: Point, cost: float) -> _Crossed:
    (x, y), (far_x, far_y) = start, end
    return min(x, far_x), min(y, far_y), max(x, far_x), max(y, far_y), start, end, cost


def nearest(box: Box, point: Point) -> Point:
    """Return the point of a box nearest to a point [mm]."""
    x, y = point
    return min(max(x, box.left), box.right), min(max(y, box.bottom), box.top)


def _at_edge(point: Point, box: Box) -> bool:
    x, y = point
    return box.left <= x <= box.right and box.bottom <= y <= box.top


def _crosses(start: Point, end: Point, box: Box) -> bool:
    """Tell whether a straight line passes through the inside of a box."""
    if max(start[0], end[0]) <= box.left or min(start[0], end[0]) >= box.right:
        return False
    if max(start[1], end[1]) <= box.bottom or min(start[1], end[1]) >= box.top:
        return False
    enter, leave = 0.0, 1.0
    for a, b, low, high in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.bottom, box.top),
    ):
        if a == b:
            if a <= low or a >= high:
                return False
            continue
        first, second = sorted(((low - a) / (b - a), (high - a) / (b - a)))
        enter, leave = max(enter, first), min(leave, second)
    return enter < leave


def beside(
    thing: Box, size: tuple[float, float], em: float, *, sides: Sequence[int] = range(8)
) -> Iterator[Spot]:
    """Yield spots round a thing, nearest first.

    Parameters
    ----------
    thing : Box
        What is named [mm].
    size : tuple of float
        Width and height of the label [mm].
    em : float
        Text size of the drawing [mm].
    sides : sequence of int
        Order of the eight sides: below, above, right, left, then the corners below and above.
    """
    x, y = thing.centre
    for step, gap in enumerate(GAPS):
        for rank, side in enumerate(sides):
            across, up = _SIDES[side]
            spot = (
                x + across * (thing.width / 2 + gap * em + size[0] / 2),
                y + up * (thing.height / 2 + gap * em + size[1] / 2),
            )
            target = nearest(thing, spot) if gap > LEADER_FROM else None
            yield Spot(*spot, cost=step + rank * 0.02, target=target)


def spread(wanted: Sequence[float], sizes: Sequence[float]) -> list[float]:
    """Return places as near as can be to those wanted, in the same order, without overlap.

    Parameters
    ----------
    wanted : sequence of float
        Rising places along one axis [mm].
    sizes : sequence of float
        Room each takes along it [mm].
    """
    # Neighbours that would overlap are put side by side as one group about the middle of their wishes.
    groups: list[tuple[float, float, list[int]]] = []
    for index, (place, size) in enumerate(zip(wanted, sizes, strict=True)):
        middle, width, members = place, size, [index]
        while groups and groups[-1][0] + groups[-1][1] / 2 > middle - width / 2:
            before, room, earlier = groups.pop()
            share = len(earlier) / (len(earlier) + len(members))
            middle, width, members = before * share + middle * (1 - share), width + room, earlier + members
        groups.append((middle, width, members))
    places = [0.0] * len(wanted)
    for middle, width, members in groups:
        start = middle - width / 2
        for index in members:
            places[index] = start + sizes[index] / 2
            start += sizes[index]
    return places
