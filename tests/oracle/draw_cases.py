"""Random cases, each from its seed alone, all valid by the text.

Stated shares: about 45 % of all coordinates hug a boundary (an edge of a strip, of an opening, of a
corner's band or of the top's, pushed in by half the cable; one in four of these is off by 0.0005 or
0.1 mm), about 30 % of all depths hug 50 mm to a face, 15 % of all legs slant, 6 % of all points are
said twice.
"""

from __future__ import annotations

from random import Random
from typing import Any

from tests.oracle.draw_timber import draw_fixing, draw_joist
from tests.oracle.draw_walls import draw_wall
from tests.oracle.facts import CONDUIT, COVERED, READINGS, roof
from tests.oracle.sheet import top_at

__all__ = ["draw_case"]

Item = dict[str, Any]

CABLES = ((7.8, 4.25), (8.2, 5.0), (10.3, 6.0), (13.5, 7.0), (19.4, 10), (9, 9), (20, 20))
BARE = ("none", "plastic-capping", "plastic-conduit", "steel-capping", "unearthed-steel-conduit")
HUG = 0.45
SLANT = 0.15
TWICE = 0.06


def draw_case(seed: int) -> Item:
    """Draw one case.

    Parameters
    ----------
    seed : int
        The same seed gives the same case.

    Returns
    -------
    dict
        The case as TOML or JSON data.
    """
    rng = Random(f"zones {seed}")
    walls = [draw_wall(rng, f"W{i + 1}") for i in range(rng.choice([1, 1, 1, 2]))]
    case: Item = {"pack": "uk", "walls": walls}
    if rng.random() < 0.5:
        names = rng.sample(sorted(READINGS), rng.randint(1, 4))
        case["readings"] = {name: rng.choice(READINGS[name]) for name in names}
    everything = [a["id"] for wall in walls for a in wall["accessories"]]
    count = rng.choice([1, 1, 2, 3])
    case["routes"] = [_route(rng, f"R{i + 1}", rng.choice(walls), everything) for i in range(count)]
    if rng.random() < 0.3:
        case["joists"] = [draw_joist(rng, f"J{i + 1}") for i in range(rng.randint(1, 2))]
    if rng.random() < 0.4:
        case["fixings"] = [draw_fixing(rng, f"F{i + 1}", rng.choice(walls)) for i in range(rng.randint(1, 4))]
    return case


def _route(rng: Random, name: str, wall: Item, everything: list[str]) -> Item:
    width, thickness = rng.choice(CABLES)
    route: Item = {"id": name, "wall": wall["id"], "cable": {"width": width, "thickness": thickness}}
    own = [a["id"] for a in wall["accessories"]]
    pool = own if own and rng.random() < 0.8 else everything
    if pool and rng.random() < 0.85:
        route["joins"] = rng.sample(pool, min(len(pool), rng.choice([1, 1, 2])))
    if rng.random() < 0.15:
        route["supply"] = rng.choice(["lv", "selv", "pelv"])
    if rng.random() < 0.6:
        route["rcd"] = _rcd(rng)
    legs = rng.choice([1, 2, 2, 3, 3, 4, 5])
    _protect(rng, route, legs)
    _bury(rng, route, wall["thickness"], legs)
    route["points"] = _points(rng, route, wall, legs)
    return route


def _rcd(rng: Random) -> Item:
    rcd: Item = {"ma": rng.choice([10, 30, 30, 30, 30.0005, 30.1, 100, 300])}
    if rng.random() < 0.4:
        rcd["at"] = rng.choice(["origin", "origin", "outlet"])
    if rng.random() < 0.4:
        rcd["delayed"] = rng.random() < 0.3
    return rcd


def _protect(rng: Random, route: Item, legs: int) -> None:
    draw = rng.random()
    if draw < 0.3:
        route["protection"] = [rng.choice(BARE + tuple(sorted(COVERED))) for _ in range(legs)]
    elif draw < 0.5:
        route["protection"] = rng.choice(BARE + tuple(sorted(COVERED)))
    if rng.random() < 0.4:
        route["outer"] = rng.choice([16, 20, 25, 32, 86])


def _bury(rng: Random, route: Item, total: float, legs: int) -> None:
    if rng.random() < 0.6:
        route["depth_from"] = rng.choice(["front", "rear"])
    thick = route["cable"]["thickness"]
    drawn = [_depth(rng, total, thick) for _ in range(legs)]
    route["depth"] = drawn[0] if rng.random() < 0.5 else drawn


def _depth(rng: Random, total: float, thick: float) -> float:
    """Pick a depth, often such that one face is just concerned or just not, or the wall just too thin."""
    if rng.random() < 0.3:
        edge: float = rng.choice([50, total - thick - 50, total - 20 - 50])
        return max(0.0, edge + rng.choice([0, 0, -0.1, 0.1, -0.0005, 0.0005, -0.002]))
    if rng.random() < 0.1:
        spare = total - thick
        far: float = rng.choice([0.0, spare, spare + 0.0005, spare + 5, spare / 2])
        return far
    return round(rng.uniform(0, min(total, 110)), 1)


def _points(rng: Random, route: Item, wall: Item, legs: int) -> list[list[float]]:
    half = _half(rng, route)
    joined = [a for a in wall["accessories"] if a["id"] in route.get("joins", [])]
    xs, ys = _edges(rng, wall, half)
    first = rng.choice(joined) if joined and rng.random() < 0.7 else None
    point = [first["x"], first["y"]] if first else [_pick(rng, xs, wall["length"]), _pick(rng, ys, 2600)]
    points = [point]
    upright = rng.random() < 0.6
    while len(points) <= legs:
        x, y = points[-1]
        if len(points) > 1 and rng.random() < TWICE:
            points.append([x, y])
            continue
        draw = rng.random()
        if draw < SLANT or upright:
            y = _pick(rng, ys, top_at(roof(wall), min(max(x, 0), wall["length"])))
        if draw < SLANT or not upright:
            x = _pick(rng, xs, wall["length"])
        upright = not upright
        points.append([x + rng.choice([0] * 30 + [0.0004]), y])
    return (
        points
        if any(abs(x - point[0]) + abs(y - point[1]) > 1 for x, y in points)
        else [*points[:-1], [point[0] + 100, point[1]]]
    )


def _half(rng: Random, route: Item) -> float:
    """Half the width of one of the legs, so that hugging is exact on that leg [mm]."""
    protection = route.get("protection", "none")
    one = rng.choice(protection) if isinstance(protection, list) else protection
    width = route.get("outer", CONDUIT[one]) if one in CONDUIT else route["cable"]["width"]
    return float(width / 2)


def _pick(rng: Random, edges: list[float], extent: float) -> float:
    if edges and rng.random() < HUG:
        return rng.choice(edges) + rng.choice([0] * 9 + [0.0005, -0.0005, 0.1])
    if rng.random() < 0.03:
        return rng.choice([-50.0, extent + 80.0])
    return round(rng.uniform(0, extent), rng.choice([0, 1]))


def _edges(rng: Random, wall: Item, half: float) -> tuple[list[float], list[float]]:
    """Places along and heights at which a cable of this half width just fits, or just does not."""
    xs: list[float] = [0, wall["length"]]
    ys: list[float] = [0]
    for a in wall["accessories"]:
        xs += [a["x"], a["x"] - a["width"] / 2 + half, a["x"] + a["width"] / 2 - half]
        ys += [a["y"], a["y"] - a["height"] / 2 + half, a["y"] + a["height"] / 2 - half]
    for o in wall["openings"]:
        xs += [o["x"], o["x"] - half, o["x"] + half, o["x"] + o["width"] + half, o["x"] + o["width"] - half]
        ys += [o["y"] - half, o["y"] + o["height"], o["y"] + o["height"] + half, o["y"] + o["height"] - half]
    for face in ("front", "rear"):
        for side in ("internal_corners", "external_corners"):
            for corner in wall.get(face, {}).get(side, []):
                xs += [corner, corner + 150 - half, corner - 150 + half, corner + 150, corner - 150]
    ys += [top_at(roof(wall), rng.uniform(0, wall["length"])) - d for d in (150, 75, 150 - half, 0)]
    ys += [y - 150 + half for _, y in roof(wall)]
    return xs, ys
