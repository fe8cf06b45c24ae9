"""Ordinary walls with one cable each, all different, so that nothing kept from one helps the next."""

import random
from collections.abc import Iterator
from typing import Any

from zonelib.rules.pack import load_pack
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

SEED = 20260415


def accessory(number: int, draw: random.Random, length: float) -> dict[str, Any]:
    kind, y = draw.choice([("socket", 450), ("switch", 1200), ("wall-light", 1800)])
    place = {"x": draw.uniform(200, length - 200), "y": y, "width": 86, "height": 86}
    return {"id": f"S{number}", "kind": kind, "face": draw.choice(["front", "rear"]), **place}


def data(draw: random.Random) -> dict[str, Any]:
    """Return the data of one case: a wall of 2.5 to 6 m, one to six accessories, a door or a window."""
    length = draw.uniform(2500, 6000)
    items = [accessory(number, draw, length) for number in range(1, draw.randint(2, 7))]
    door = {"id": "D1", "kind": "door", "x": length / 2, "y": 0, "width": 826, "height": 2040}
    window = {"id": "D1", "kind": "window", "x": length / 2, "y": 900, "width": 1200, "height": 1100}
    first = items[0]
    points = [[first["x"], first["y"]], [first["x"], 2330], [draw.uniform(50, length - 50), 2330]]
    points.append([draw.uniform(50, length - 50), draw.uniform(100, 2300)])
    wall = {"id": "W1", "length": length, "height": 2400, "thickness": draw.choice([75, 100, 140])}
    wall |= {"build": "timber-stud", "front": {"internal_corners": [0]}}
    wall |= {"openings": [draw.choice([door, window])], "accessories": items}
    route = {"id": "R1", "wall": "W1", "joins": ["S1"], "points": points, "depth": draw.uniform(15, 35)}
    route |= {"cable": {"width": 10.3, "thickness": 6.0}, "rcd": {"ma": 30}}
    return {"pack": "uk", "walls": [wall], "routes": [route]}


def cases() -> Iterator[Case]:
    """Yield cases without end, the same ones in every run."""
    draw = random.Random(SEED)
    vocabulary = load_pack("uk").vocabulary
    while True:
        yield case_from_data(data(draw), vocabulary, file="bench.toml")
