"""Random cases for the ``de`` pack, each from its seed alone: the walls of the others, seen by other rules.

About 45 % of all coordinates hug a boundary of the German zones, 30 % of all depths hug 60 mm, and
one leg in eight slants.
"""

from __future__ import annotations

from random import Random

from tests.oracle.draw_walls import draw_wall
from tests.oracle.facts import Item, roof
from tests.oracle.sheet import top_at

__all__ = ["draw_de_case", "draw_de_wall"]

KINDS = ("socket", "socket", "switch", "wall-light", "data-outlet", "consumer-unit", "radiator", "mirror")
CABLES = ((8.2, 5.0), (10.3, 6.0), (9, 9), (19.4, 10))
HUG = 0.45
OFF = (*([0.0] * 9), 0.0005, -0.0005, 0.1)


def draw_de_wall(rng: Random, name: str) -> Item:
    """Draw one wall, with lock sides of doors and worktops."""
    wall = draw_wall(rng, name)
    for opening in wall["openings"]:
        side = rng.choice(["left", "right", "both", None])
        if opening["kind"] == "door" and side:
            opening["lock_side"] = side
    for face in ("front", "rear"):
        if rng.random() < 0.4:
            wall[face] = {**wall.get(face, {}), "worktop": rng.random() < 0.7}
    for accessory in wall["accessories"]:
        accessory["kind"] = rng.choice(KINDS)
    return wall


def draw_de_case(seed: int) -> Item:
    """Draw one case; the same seed gives the same case."""
    rng = Random(f"levels {seed}")
    wall = draw_de_wall(rng, "W1")
    case: Item = {"pack": "de", "walls": [wall]}
    if rng.random() < 0.5:
        case["readings"] = {"external_corners": rng.choice(["no", "yes"])}
    case["routes"] = [_route(rng, f"R{i + 1}", wall) for i in range(rng.choice([1, 2]))]
    if rng.random() < 0.4:
        case["fixings"] = [_fixing(rng, f"F{i + 1}", wall) for i in range(rng.randint(1, 4))]
    return case


def _route(rng: Random, name: str, wall: Item) -> Item:
    width, thickness = rng.choice(CABLES)
    route: Item = {"id": name, "wall": wall["id"], "cable": {"width": width, "thickness": thickness}}
    own = [one["id"] for one in wall["accessories"]]
    if own and rng.random() < 0.85:
        route["joins"] = rng.sample(own, min(len(own), rng.choice([1, 1, 2])))
    if rng.random() < 0.1:
        route["supply"] = rng.choice(["selv", "pelv"])
    if rng.random() < 0.2:
        route["protection"] = "plastic-conduit"
    if rng.random() < 0.5:
        route["depth_from"] = rng.choice(["front", "rear"])
    legs = rng.choice([1, 2, 2, 3, 4])
    route["depth"] = [_depth(rng, wall["thickness"], thickness) for _ in range(legs)]
    route["points"] = _points(rng, route, wall, legs)
    return route


def _depth(rng: Random, total: float, thick: float) -> float:
    if rng.random() < 0.3:
        edge = rng.choice([60, total - thick - 60, total - 20 - 60])
        return max(0.0, float(edge + rng.choice([0, 0, 0.1, -0.1, 0.0005, 0.002])))
    return round(rng.uniform(0, min(total, 110)), 1)


def _points(rng: Random, route: Item, wall: Item, legs: int) -> list[list[float]]:
    half = 10.0 if "protection" in route else route["cable"]["width"] / 2
    joined = [one for one in wall["accessories"] if one["id"] in route.get("joins", [])]
    start = rng.choice(joined) if joined and rng.random() < 0.8 else None
    xs, ys = _edges(wall, half)
    x, y = (start["x"], start["y"]) if start else (_pick(rng, xs, wall["length"]), _pick(rng, ys, 2500))
    points, upright = [[x, y]], rng.random() < 0.7
    while len(points) <= legs:
        slanting = rng.random() < 0.12
        if slanting or not upright:
            x = _pick(rng, xs, wall["length"])
        if slanting or upright:
            y = _pick(rng, [y for y in ys if y > 0] + _under(rng, wall, x, half), 2500)
        points.append([x, y])
        upright = not upright
    return points if points[0] != points[-1] or legs > 1 else [points[0], [x + 100, y]]


def _pick(rng: Random, edges: list[float], extent: float) -> float:
    if rng.random() < HUG:
        return rng.choice(edges) + rng.choice(OFF)
    return round(rng.uniform(0, extent), 1)


def _under(rng: Random, wall: Item, x: float, half: float) -> list[float]:
    """Heights just within the zone under the ceiling at one place, and the middle of that zone."""
    top = top_at(roof(wall), min(max(x, 0.0), wall["length"]))
    return [top - 300, top - 450 + half, top - 150 - half] if rng.random() < 0.8 else [top]


def _edges(wall: Item, half: float) -> tuple[list[float], list[float]]:
    """Places and heights at which a cable of this half width just fits a German zone."""
    corners = [
        x for face in ("front", "rear") for key in ("internal_corners", "external_corners")
        for x in wall.get(face, {}).get(key, [])
    ]  # fmt: skip
    sides = [o["x"] for o in wall["openings"]] + [o["x"] + o["width"] for o in wall["openings"]]
    xs = [0.0, wall["length"]]
    for at in corners + sides:
        xs += [at + way * reach for way in (-1, 1) for reach in (100 + half, 200, 300 - half)]
    ys = [0.0, 150 + half, 300.0, 450 - half, 1000 + half, 1150.0, 1300 - half]
    for o in wall["openings"]:
        ys += [o["y"] - 100 - half, o["y"] + o["height"] + 100 + half]
    for one in wall["accessories"]:
        xs += [one["x"], one["x"] - one["width"] / 2 + half, one["x"] + one["width"] / 2 - half]
        ys += [one["y"]]
    return xs, ys


def _fixing(rng: Random, name: str, wall: Item) -> Item:
    diameter = rng.choice([3, 5, 8])
    reach = diameter / 2 + 10
    xs, ys = _edges(wall, -reach)
    fixing = {"id": name, "wall": wall["id"], "face": rng.choice(["front", "rear"]), "diameter": diameter}
    fixing |= {"x": _pick(rng, xs, wall["length"]), "y": _pick(rng, ys, 2400)}
    return fixing | {"penetration": rng.choice([20, 59.9, 59.9995, 60, 60.1, 80])}
