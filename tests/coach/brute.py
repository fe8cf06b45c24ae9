"""The solver against every run there is on small walls: `python -m tests.coach.brute 200`."""

import math
import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise, product

from tests.rules.cases import accessory, one_route, opening
from zonelib import judge, load_pack
from zonelib.coach.field import field_of
from zonelib.coach.solver import Blocked, Cost, Solution, shortest_route
from zonelib.coach.ways import Ways
from zonelib.rules.rulebook import Rulebook
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Route

__all__ = ["Small", "compared"]

UK = load_pack("uk")
LENGTH, HEIGHT, HALF, BEND, MOST_BENDS = 1000, 800, 5, 50.0, 2
Point = tuple[float, float]


@dataclass(frozen=True)
class Small:
    """A wall of 1000 by 800 with one socket, a start at its top, and maybe a hatch or a corner [mm]."""

    x: int
    y: int
    wide: int
    start: int
    hatch: bool = False
    corner: bool = False

    def read(self) -> tuple[Case, Route]:
        socket = accessory("S1", self.x, self.y, width=self.wide)
        hole = [opening("H1", 420, 250, 160, 300, kind="hatch")] if self.hatch else []
        front = {"internal_corners": [0]} if self.corner else {}
        data = one_route([(0, 0), (1, 0)], length=LENGTH, height=HEIGHT, accessories=[socket], openings=hole,
                         front=front)  # fmt: skip
        case = case_from_data(data, UK.vocabulary)
        return case.model_copy(update={"routes": ()}), case.routes[0]


def compared(wall: Small) -> str:
    """Return "equal", "beyond" where ours bends more often than is tried, "none"; and never anything worse.

    Every run on the lines of the search with at most two bends is judged by the engine. None that passes
    may be cheaper than ours, and where ours has so few bends it is among them. The engine lets a cable lie
    on a wall's very edge; the search does not, so such runs are left out.
    """
    case, route = wall.read()
    begin = (float(wall.start), float(HEIGHT))
    found = shortest_route(case, UK, route, start=begin)
    ways = Ways(field_of(case, Rulebook(UK), route, through=(begin,)), Cost(bend=BEND))
    ours = found.cost if isinstance(found, Solution) else math.inf
    for points in every_run(ways, begin):
        if _cost(points) < ours - 0.05 and _clear_of_edges(points, begin[0]):
            assert not _passes(case, route, points), (wall, points)
    if isinstance(found, Blocked):
        return "none"
    assert found.length >= _nearest(wall) - 0.01, wall
    if len(found.route.points) - 2 > MOST_BENDS:
        return "beyond"
    assert any(abs(_cost(points) - ours) < 0.05 and _passes(case, route, points)
               for points in every_run(ways, begin) if abs(_cost(points) - ours) < 0.05), wall  # fmt: skip
    return "equal"


def every_run(ways: Ways, start: Point) -> Iterator[tuple[Point, ...]]:
    """Yield every run from a point with at most two bends, along the lines of the search."""
    for count in range(MOST_BENDS + 1):
        for level_first in (True, False):
            axes = [level_first == (leg % 2 == 0) for leg in range(count + 1)]
            for marks in product(*(ways.xs if level else ways.ys for level in axes)):
                points = [start]
                for level, mark in zip(axes, marks, strict=True):
                    x, y = points[-1]
                    points.append((float(mark), y) if level else (x, float(mark)))
                if all(math.dist(*pair) > 0.01 for pair in pairwise(points)):
                    yield tuple(points)


def _cost(points: tuple[Point, ...]) -> float:
    return sum(math.dist(*pair) for pair in pairwise(points)) + BEND * (len(points) - 2)


def _nearest(wall: Small) -> float:
    """Level and upright distance to the socket's plate: no run of level and upright legs is shorter [mm]."""
    return max(abs(wall.start - wall.x) - wall.wide / 2, 0) + max(HEIGHT - wall.y - 43, 0)


def _clear_of_edges(points: tuple[Point, ...], start: float) -> bool:
    """Tell whether a run keeps half its width from the edges, upright legs at its start aside."""
    return all(
        (HALF <= a[1] <= HEIGHT - HALF) if abs(a[1] - b[1]) < 0.01
        else (HALF <= a[0] <= LENGTH - HALF or a[0] == start)
        for a, b in pairwise(points)
    )  # fmt: skip


def _passes(case: Case, route: Route, points: tuple[Point, ...]) -> bool:
    legs = len(points) - 1
    run = route.model_copy(
        update={
            "points": points, "depth": route.depth[:1] * legs,
            "protection": ("none",) * legs, "via": ("wall",) * legs,
        }
    )  # fmt: skip
    return judge(case.model_copy(update={"routes": (run,)}), UK).passed


def drawn(draw: random.Random) -> Small:
    """Return a random small wall."""
    x, wide = draw.randint(190, 810), draw.randint(80, 300)
    clear = abs(x - 500) > (wide + 180) / 2
    return Small(x, draw.randint(150, 650), wide, draw.randint(0, LENGTH), clear and draw.random() < 0.5,
                 draw.random() < 0.4)  # fmt: skip


if __name__ == "__main__":
    random_walls = random.Random(7)
    results = [compared(drawn(random_walls)) for _ in range(int(sys.argv[1]))]
    print({one: results.count(one) for one in sorted(set(results))})  # noqa: T201 it is run for this
