"""Random walls: tops, openings, corners and accessories that lie where the case file allows them."""

from __future__ import annotations

from random import Random
from typing import Any

from tests.oracle.facts import roof
from tests.oracle.sheet import top_at

__all__ = ["draw_wall"]

Item = dict[str, Any]

KINDS = (
    *("socket", "switch", "fused-connection", "cooker-outlet", "shower-outlet", "wall-light"),
    *("consumer-unit", "data-outlet", "thermostat", "blank-plate", "blank-plate"),
    *("buried-box", "radiator", "pipe", "mirror"),
)
PLATES = ((86, 86), (146, 86), (86, 146), (60, 60), (300, 400), (20, 20), (8, 8), (1000, 600))
THICKNESS = (60, 75, 99.9, 99.9995, 100, 100, 100, 100.1, 112.5, 140, 215, 300)


def draw_wall(rng: Random, name: str) -> Item:
    """Draw one wall."""
    length = rng.choice([600, 900, 1800, 2400, 3600, 3600, 5000, round(rng.uniform(500, 6000), 1)])
    wall: Item = {"id": name, "length": length, "thickness": rng.choice(THICKNESS)}
    wall["build"] = rng.choice(["timber-stud", "timber-stud", "masonry", "masonry", "metal-stud"])
    _top(rng, wall)
    if wall["build"] == "masonry" and rng.random() < 0.4:
        wall["leaf"] = rng.choice([40, 74, 100, 102.5, 150])
    for face in ("front", "rear"):
        if rng.random() < 0.8:
            wall[face] = _face(rng, length)
    wall["openings"] = _openings(rng, wall)
    wall["accessories"] = _accessories(rng, wall)
    return wall


def _top(rng: Random, wall: Item) -> None:
    length, kind = (
        wall["length"],
        rng.choice(["level", "level", "slope", "valley", "gable", "broken", "listed"]),
    )
    high, low = rng.choice([2400, 2700, round(rng.uniform(2000, 3200), 1)]), round(rng.uniform(700, 2000), 1)
    mid = round(length * rng.uniform(0.2, 0.8), 1)
    tops = {
        "slope": rng.sample([[0, high], [length, low]], 2),
        "valley": [[0, high], [mid, low], [length, high - 100]],
        "gable": [[0, low], [mid, high], [length, low + 50]],
        "listed": [[0, high], [mid, high], [length, high]],
    }
    if kind == "level":
        wall["height"] = high
    elif kind == "broken":
        xs = sorted({round(length * rng.uniform(0.05, 0.95), 1) for _ in range(3)})
        wall["top"] = [
            [x, rng.choice([low, high, round(rng.uniform(900, 3000), 1)])] for x in [0, *xs, length]
        ]
    else:
        wall["top"] = tops[kind]
        if kind == "slope":
            wall["top"] = [[0, tops[kind][0][1]], [length, tops[kind][1][1]]]


def _face(rng: Random, length: float) -> Item:
    face: Item = {}
    if rng.random() < 0.7:
        spots = [0, length, 0, length, round(rng.uniform(0, length), 1)]
        if rng.random() < 0.3:
            middle = round(rng.uniform(0, length - 100), 1)
            spots = [middle, middle + 100]
        corners = sorted(set(rng.sample(spots, rng.randint(1, 2))))
        cut = rng.randint(0, len(corners))
        face = {"internal_corners": corners[:cut], "external_corners": corners[cut:]}
    if rng.random() < 0.4:
        face["finish"] = rng.choice([3, 10, 12.5, 13, 15, 25])
    return face


def _lowest(wall: Item, left: float, right: float) -> float:
    """Lowest height of the top between two places [mm]."""
    line = roof(wall)
    inner = [y for x, y in line if left <= x <= right]
    return min([top_at(line, left), top_at(line, right), *inner])


def _fits(wall: Item, box: tuple[float, float, float, float], taken: list[Item]) -> bool:
    """Tell whether left, right, low, high lie on the wall and a millimetre clear of openings."""
    left, right, low, high = box
    if left < 0 or right > wall["length"] or low < 0 or high > _lowest(wall, left, right):
        return False
    return not any(
        left < o["x"] + o["width"] + 1
        and right > o["x"] - 1
        and low < o["y"] + o["height"] + 1
        and high > o["y"] - 1
        for o in taken
    )


def _openings(rng: Random, wall: Item) -> list[Item]:
    found: list[Item] = []
    for i in range(rng.choice([0, 0, 1, 1, 2, 3])):
        kind = rng.choice(["door", "window", "hatch"])
        sizes = {"door": (826, 2040), "window": (1200, 1050), "hatch": (400, 300)}
        width, height = sizes[kind] if rng.random() < 0.5 else (rng.randint(50, 1500), rng.randint(50, 2000))
        x = round(rng.uniform(0, wall["length"]), 1)
        y = 0.0 if kind == "door" else round(rng.uniform(0, 2000), 1)
        if _fits(wall, (x, x + width, y, y + height), found):
            found.append(
                {"id": f"{wall['id']}-O{i}", "kind": kind, "x": x, "y": y, "width": width, "height": height}
            )
    return found


def _accessories(rng: Random, wall: Item) -> list[Item]:
    found: list[Item] = []
    for i in range(rng.choice([0, 1, 2, 2, 3, 4, 6])):
        width, height = rng.choice(PLATES) if rng.random() < 0.8 else _odd_size(rng)
        x, y = _centre(rng, wall, width, height)
        box = (x - width / 2, x + width / 2, y - height / 2, y + height / 2)
        # Nothing forbids an accessory over an opening; its strips are then blocked from the start.
        taken = wall["openings"] if rng.random() < 0.9 else []
        if _fits(wall, box, taken):
            found.append(_accessory(rng, f"{wall['id']}-A{i}", (x, y), (width, height)))
    return found


def _odd_size(rng: Random) -> tuple[float, float]:
    return rng.randint(10, 300), rng.randint(10, 300)


def _centre(rng: Random, wall: Item, width: float, height: float) -> tuple[float, float]:
    if wall["openings"] and rng.random() < 0.5:
        return _beside(rng, rng.choice(wall["openings"]), width, height)
    y = rng.choice([300, 450, 1050, 1200, 1750]) if rng.random() < 0.6 else round(rng.uniform(20, 2400), 1)
    return round(rng.uniform(0, wall["length"]), rng.choice([0, 1])), y


def _beside(rng: Random, opening: Item, width: float, height: float) -> tuple[float, float]:
    """Place an accessory so that the opening cuts its strip, wholly, in part, or only by touching it."""
    share = rng.choice([0, 0.5, 1, rng.random(), rng.random()])
    if rng.random() < 0.5:
        x = opening["x"] + share * opening["width"]
        y = rng.choice([opening["y"] - height / 2 - 40, opening["y"] + opening["height"] + height / 2 + 40])
    else:
        x = rng.choice([opening["x"] - width / 2 - 40, opening["x"] + opening["width"] + width / 2 + 40])
        y = opening["y"] + share * opening["height"]
    if rng.random() < 0.2:
        x = opening["x"] - width / 2
        y = opening["y"] + opening["height"] + height / 2 + rng.choice([1, 200])
    return x, y


def _accessory(rng: Random, name: str, centre: tuple[float, float], size: tuple[float, float]) -> Item:
    found: Item = {"id": name, "kind": rng.choice(KINDS), "face": rng.choice(["front", "front", "rear"])}
    found |= {"x": centre[0], "y": centre[1], "width": size[0], "height": size[1]}
    if rng.random() < 0.6:
        found["locatable_from_reverse"] = rng.random() < 0.7
    if rng.random() < 0.2:
        found["visible"] = rng.random() < 0.5
    return found
