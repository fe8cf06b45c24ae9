"""Random joists and fixings, many of whose values stand exactly at a limit."""

from __future__ import annotations

from random import Random
from typing import Any

from tests.oracle.facts import COVERED, roof
from tests.oracle.sheet import top_at

__all__ = ["draw_fixing", "draw_joist"]

Item = dict[str, Any]

ASTRAY = 0.2
"""Share of the fixings that are drawn where no wall is."""

OFF = (0, 0, 0, 0.0005, -0.0005, 0.1, -0.1)


def draw_joist(rng: Random, name: str) -> Item:
    """Draw one joist."""
    kind = rng.choice(["solid"] * 6 + ["i-joist", "metal-web", "trussed-rafter", "rafter"])
    depth = rng.choice([100, 125, 150, 175, 200, 225, 250, 250, 250.0005, 250.1, 300])
    span = rng.choice([2000, 2500, 3000, 3500, 3600, 4000, 4500, round(rng.uniform(1500, 5000), 1)])
    joist: Item = {"id": name, "kind": kind, "depth": depth, "width": 47, "span": span}
    holes = [_hole(rng, f"{name}-H{i}", depth, span) for i in range(rng.choice([0, 1, 2, 3]))]
    notches = [_notch(rng, f"{name}-N{i}", depth, span) for i in range(rng.choice([0, 1, 2]))]
    if len(holes) > 1 and rng.random() < 0.5:
        gap = 3 * max(holes[0]["diameter"], holes[1]["diameter"])
        holes[1]["x"] = holes[0]["x"] + rng.choice([-1, 1]) * (gap + rng.choice(OFF))
    if holes and notches and rng.random() < 0.5:
        gap = 100 + holes[0]["diameter"] / 2 + notches[0]["length"] / 2
        notches[0]["x"] = holes[0]["x"] + rng.choice([-1, 1]) * (gap + rng.choice(OFF))
    return joist | ({"holes": holes} if holes else {}) | ({"notches": notches} if notches else {})


def _guard(rng: Random, item: Item) -> Item:
    if rng.random() < 0.4:
        item["protection"] = rng.choice(["none", "plastic-conduit", "steel-capping", *sorted(COVERED)])
    return item


def _hole(rng: Random, name: str, depth: float, span: float) -> Item:
    diameter = rng.choice([16, 22, 0.25 * depth + rng.choice(OFF), max(5, depth - 100 + rng.choice(OFF))])
    share = rng.choice([0.25, 0.4, 0.6, 0.75, 0.3, rng.uniform(0, 1)])
    y = depth / 2 + rng.choice([0, 0, 2 + rng.choice(OFF), -2 + rng.choice(OFF), rng.uniform(-40, 40)])
    if rng.random() < 0.3:
        y = rng.choice([50 + diameter / 2, depth - 50 - diameter / 2]) + rng.choice(OFF)
    hole: Item = {"id": name, "x": share * span + rng.choice(OFF), "y": y, "diameter": diameter}
    if rng.random() < 0.3:
        hole["cable_diameter"] = min(diameter, rng.choice([8.2, 10.3]))
    return _guard(rng, hole)


def _notch(rng: Random, name: str, depth: float, span: float) -> Item:
    length = rng.choice([20, 40, 60])
    edge = rng.choice([0.07 * span + length / 2, 0.25 * span - length / 2, rng.uniform(0.05, 0.3) * span])
    x = rng.choice([edge, span - edge]) + rng.choice(OFF)
    notch: Item = {
        "id": name,
        "x": x,
        "length": length,
        "depth": rng.choice([10, 20, 0.125 * depth + rng.choice(OFF)]),
    }
    return _guard(rng, notch | {"edge": rng.choice(["top", "top", "bottom"])})


def draw_fixing(rng: Random, name: str, wall: Item) -> Item:
    """Draw one fixing, mostly on the wall and in no opening."""
    diameter = rng.choice([4, 5, 6, 10])
    half = diameter / 2 + 10
    line = roof(wall)
    while True:
        x, y = _spot(rng, wall, half)
        if 0 <= x <= wall["length"] and 0 <= y <= top_at(line, x) and not _in_opening(wall, x, y):
            break
    if rng.random() < ASTRAY:
        x, y = _where_no_wall_is(rng, wall, x, y)
    fixing: Item = {"id": name, "wall": wall["id"], "face": rng.choice(["front", "rear"]), "x": x, "y": y}
    return fixing | {"penetration": rng.choice([30, 49.9, 49.9995, 50, 50.1, 80]), "diameter": diameter}


def _where_no_wall_is(rng: Random, wall: Item, x: float, y: float) -> tuple[float, float]:
    """Pick a place in an opening, or beside the wall, or one that is equal to its edge."""
    off = rng.choice([0.0005, 0.1, 30])
    if wall["openings"] and rng.random() < 0.6:
        o = rng.choice(wall["openings"])
        return rng.choice([o["x"] + off, o["x"] + o["width"] / 2]), o["y"] + o["height"] / 2
    return rng.choice([(-off, y), (wall["length"] + off, y), (x, -off), (x, wall["height"] + off)]
                      if "height" in wall else [(-off, y), (x, -off)])  # fmt: skip


def _in_opening(wall: Item, x: float, y: float) -> bool:
    return any(
        o["x"] < x < o["x"] + o["width"] and o["y"] < y < o["y"] + o["height"] for o in wall["openings"]
    )


def _spot(rng: Random, wall: Item, half: float) -> tuple[float, float]:
    """Pick a place, often just at the edge of what the drill may touch."""
    x, y = round(rng.uniform(0, wall["length"]), 1), round(rng.uniform(0, 2600), 1)
    if wall["accessories"] and rng.random() < 0.4:
        plate = rng.choice(wall["accessories"])
        side = rng.choice([-1, 1])
        if rng.random() < 0.5:
            x = plate["x"] + side * (plate["width"] / 2 + half + rng.choice(OFF))
        else:
            y = plate["y"] + side * (plate["height"] / 2 + half + rng.choice(OFF))
    corners = [c for face in ("front", "rear") for c in wall.get(face, {}).get("internal_corners", [])]
    if corners and rng.random() < 0.3:
        x = rng.choice(corners) + rng.choice([-1, 1]) * (150 + half + rng.choice(OFF))
    return x, y
