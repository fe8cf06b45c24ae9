"""Rooms of 4, 40 and 400 walls, with 1 to 100 accessories on each, and a route that touches two of them."""

from typing import Any

import shapely

from zonelib.rules.pack import load_pack
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Wall

HEIGHT, DEPTH = 2400, 4000


def plan(walls: int) -> list[list[float]]:
    """Return a plan with so many walls: a long room with a chimney breast every metre."""
    points: list[list[float]] = [[0, 0], [0, DEPTH]]
    for breast in range((walls - 4) // 4):
        left = 1000 * breast + 1000
        points += [[left, DEPTH], [left, DEPTH - 300], [left + 500, DEPTH - 300], [left + 500, DEPTH]]
    width = points[-1][0] + 3000
    return [*points, [width, DEPTH], [width, 0]]


def accessories(wall: int, count: int) -> list[dict[str, Any]]:
    """Return plates of 4 by 4 mm, ten to a row, the first at 20, 300."""
    return [
        {"id": f"S{wall}-{n}", "kind": "socket", "face": "front", "x": 20 + 25 * (n % 10),
         "y": 300 + 40 * (n // 10), "width": 4, "height": 4}
        for n in range(count)
    ]  # fmt: skip


def large_room(walls: int, each: int, *, joins: int = 1) -> Case:
    """Return a case with one room and one route, from wall 2 round the corner into wall 3."""
    own = [{"number": n, "accessories": accessories(n, each)} for n in range(1, walls + 1)]
    room = {"id": "A", "plan": plan(walls), "height": HEIGHT, "thickness": 100, "build": "timber-stud"}
    begin = float(DEPTH)
    length = plan(walls)[2][0]
    points = [
        [begin + 20, 300],
        [begin + 20, 2330],
        [begin + length + 100, 2330],
        [begin + length + 100, 1200],
    ]
    route = {"id": "R1", "room": "A", "joins": [f"S2-{n}" for n in range(joins)], "points": points,
             "depth": 20, "rcd": {"ma": 30}, "cable": {"width": 4, "thickness": 4}}  # fmt: skip
    data = {"pack": "uk", "rooms": [{**room, "walls": own}], "routes": [route]}
    return case_from_data(data, load_pack("uk").vocabulary, file="bench.toml")


def bare(case: Case) -> float:
    """Build the zones of both faces of the two walls that are touched, and measure what lies outside."""
    (route,) = case.routes
    touched = [wall for wall in case.walls if wall.id in {"A.2", "A.3"}]
    line = shapely.LineString(route.points)
    return sum(_outside(wall, line, set(route.joins), route.cable.width / 2) for wall in touched)


def _outside(wall: Wall, line: shapely.LineString, joins: set[str], half: float) -> float:
    outside = 0.0
    for face in (wall.front, wall.rear):
        parts = [shapely.box(0, HEIGHT - 150, wall.length, HEIGHT)]
        corners = (*face.internal_corners, *face.external_corners)
        parts += [shapely.box(x - 150, 0, x + 150, HEIGHT) for x in corners]
        for one in (one for one in wall.accessories if one.id in joins):
            left, low, right, high = one.bounds
            parts += [shapely.box(left, 0, right, HEIGHT), shapely.box(0, low, wall.length, high)]
        barred = shapely.box(0, 0, wall.length, HEIGHT).difference(shapely.union_all(parts))
        outside += line.intersection(barred.buffer(half)).length
    return outside
