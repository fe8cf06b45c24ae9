"""Random studs, joists and runs, many of whose values stand exactly at a limit or a hair beside it."""

from __future__ import annotations

from random import Random
from typing import Any, TypeAlias

__all__ = ["draw_american", "draw_runs"]

Item: TypeAlias = dict[str, Any]
OFF = (0, 0, 0.0005, -0.0005, 0.1, -0.1)
GUARDS = ["none", "none", "plastic-conduit", "armoured-cable", "steel-plate"]


def draw_american(rng: Random) -> Item:
    """Draw one joist and one stud, each with something cut in it."""
    return {"pack": "us", "joists": [_joist(rng)], "studs": [_stud(rng)]}


def _near(rng: Random, *limits: float, low: float, high: float) -> float:
    """Return a limit or a hair beside it, or anything between two ends [mm]."""
    if limits and rng.random() < 0.6:
        return rng.choice(limits) + rng.choice(OFF)
    return round(rng.uniform(low, high), 1)


def _size(rng: Random, *limits: float) -> float:
    return max(1.0, _near(rng, *limits, low=5, high=80))


def _joist(rng: Random) -> Item:
    depth, span = rng.choice([140, 184, 235, 240, 286, 300]), rng.choice([2400, 3000, 3600])
    holes: list[Item] = []
    for number in range(rng.choice([1, 2, 3])):
        size = _size(rng, depth / 3, 20, 30)
        reach = 51 + size / 2
        y = _near(
            rng, reach, depth - reach, 32 + size / 2, depth - 32 - size / 2, depth / 2, low=0, high=depth
        )
        beside = [holes[0]["x"] + 51 + (holes[0]["diameter"] + size) / 2] if holes else []
        x = _near(rng, *beside, low=0, high=span)
        holes.append({"id": f"H{number}", "x": x, "y": y, "diameter": size, "protection": rng.choice(GUARDS)})
    notches = [_joist_notch(rng, f"N{number}", depth, span) for number in range(rng.choice([0, 1, 2]))]
    if notches and rng.random() < 0.5:
        notches[0]["x"] = (
            holes[0]["x"] + 51 + holes[0]["diameter"] / 2 + notches[0]["length"] / 2 + rng.choice(OFF)
        )
    member = {"id": "J", "kind": "solid", "depth": depth, "width": 38, "span": span}
    return {**member, "holes": holes, "notches": notches}


def _joist_notch(rng: Random, name: str, depth: float, span: float) -> Item:
    length = _size(rng, depth / 3, 40)
    ends = (length / 2, span - length / 2, span / 3 - length / 2, 2 * span / 3 + length / 2)
    return {
        "id": name,
        "x": _near(rng, *ends, low=0, high=span),
        "length": length,
        "depth": _size(rng, depth / 6, depth / 4),
        "edge": rng.choice(["top", "bottom"]),
        "protection": rng.choice(GUARDS),
    }


def _stud(rng: Random) -> Item:
    depth = rng.choice([89, 140, 184])
    stud: Item = {"id": "S", "depth": depth, "width": 38, "height": 2400, "notches": []}
    if (bearing := rng.choice([True, False, None])) is not None:
        stud["bearing"] = bearing
    size = _size(rng, 0.4 * depth, 0.6 * depth, depth - 64)
    places = [near + size / 2 for near in (16, 32)]
    x = _near(rng, *places, *(depth - one for one in places), depth / 2, low=0, high=depth)
    stud["holes"] = [{"id": "SH", "x": x, "y": 1200, "diameter": size, "protection": rng.choice(GUARDS)}]
    if rng.random() < 0.7:
        length = rng.choice([30, 60])
        y = _near(rng, 1200 + (size + length) / 2, 1200 - (size + length) / 2, low=100, high=2300)
        deep = _size(rng, 0.25 * depth, 0.4 * depth)
        notch = {"id": "SN", "y": y, "length": length, "depth": deep, "edge": rng.choice(["front", "rear"])}
        stud["notches"] = [{**notch, "protection": rng.choice(GUARDS)}]
    return stud


def draw_runs(rng: Random, country: str) -> Item:
    """Draw a joist with several cables along it."""
    depth, span = rng.choice([100, 110, 150, 200, 250]), rng.choice([2400, 3000])
    joist = {"id": "J", "kind": "solid", "depth": depth, "width": 47, "span": span}
    return {"pack": country, "joists": [joist], "runs": [_run(rng, f"C{n}", depth, span) for n in range(4)]}


def _run(rng: Random, name: str, depth: float, span: float) -> Item:
    wide = rng.choice([8.2, 10.0, 10.3])
    run: Item = {"id": name, "joist": "J", "cable": {"width": wide, "thickness": 5.0}}
    run |= {"supply": rng.choice(["lv", "lv", "lv", "selv"]), "protection": rng.choice(GUARDS)}
    place = rng.choice(["side", "side", "side", "over", "under", "on-ceiling"])
    run |= {
        "place": place,
        "void": rng.choice(["both", "ceiling", *(["floor"] if place != "on-ceiling" else [])]),
    }
    if place == "side":
        limits = [limit for near in (32, 50) for limit in (near, depth - near - wide, depth - near - 20)]
        run[rng.choice(["below_top", "above_bottom"])] = _near(rng, *limits, low=-5, high=depth)
    if rng.random() < 0.3:
        run["outer"] = rng.choice([16.0, 25.0])
    if rng.random() < 0.5:
        run["from"] = _near(rng, 0, low=-20, high=span / 2)
        run["to"] = _near(rng, span, low=span / 2 + 1, high=span + 20)
    return run
