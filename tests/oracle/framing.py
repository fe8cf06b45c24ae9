"""What FACTS 7 asks of joists and studs in the United States, and FACTS 1 of runs, worked out plainly.

No geometry library, none of the engine's code, and the numbers stand here once more.
"""

from __future__ import annotations

from itertools import combinations
from math import hypot
from typing import Any, TypeAlias

from tests.oracle.facts import COVERED

__all__ = ["american_joist", "american_stud", "cable_run"]

Item: TypeAlias = dict[str, Any]
Told: TypeAlias = dict[tuple[str, str, str | None], str]

EQUAL = 0.001
PLATES = {"steel-plate", "rigid-steel-conduit"}
NAILED = {"both": ("top", "bottom"), "floor": ("top",), "ceiling": ("bottom",)}


def _least(value: float, limit: float) -> str:
    return "pass" if value >= limit - EQUAL else "fail"


def _most(value: float, limit: float) -> str:
    return "pass" if value <= limit + EQUAL else "fail"


def american_joist(joist: Item) -> Told:
    """Work out the status of every rule for a solid joist."""
    holes, notches = joist["holes"], joist["notches"]
    told: Told = {("joist-kind", joist["id"], None): "pass" if holes or notches else "not-applicable"}
    for hole in holes:
        left = min(hole["y"], joist["depth"] - hole["y"]) - hole["diameter"] / 2
        told["joist-cover", hole["id"], None] = "pass" if hole["protection"] in PLATES else _least(left, 32)
        told["joist-hole-edge", hole["id"], None] = _least(left, 51)
        told["joist-hole-size", hole["id"], None] = _most(hole["diameter"], joist["depth"] / 3)
        told["joist-hole-position", hole["id"], None] = "not-applicable"
        told["joist-hole-centre", hole["id"], None] = "not-applicable"
    for one, other in combinations(holes, 2):
        away = hypot(one["x"] - other["x"], one["y"] - other["y"])
        clear = away - one["diameter"] / 2 - other["diameter"] / 2
        told["joist-hole-spacing", one["id"], other["id"]] = _least(clear, 51)
    for notch in notches:
        told |= _joist_notch(joist, notch)
        for hole in holes:
            told["joist-notch-gap", notch["id"], hole["id"]] = _least(_apart(joist, notch, hole), 51)
    return told


def _joist_notch(joist: Item, notch: Item) -> Told:
    name, depth, span = notch["id"], joist["depth"], joist["span"]
    left, right = notch["x"] - notch["length"] / 2, notch["x"] + notch["length"] / 2
    at_end = left <= EQUAL if notch["x"] <= span / 2 else right >= span - EQUAL
    outer = right <= span / 3 + EQUAL or left >= 2 * span / 3 - EQUAL
    return {
        ("joist-cover", name, None): "pass" if notch["protection"] in PLATES else "fail",
        ("joist-notch-depth", name, None): _most(notch["depth"], depth / (4 if at_end else 6)),
        ("joist-notch-length", name, None): _most(notch["length"], depth / 3),
        ("joist-notch-position", name, None): "pass" if outer else "fail",
        ("joist-notch-edge", name, None): "pass",
    }


def _apart(joist: Item, notch: Item, hole: Item) -> float:
    """Return the clear distance of a round hole and a notch taken as a box [mm]."""
    low = joist["depth"] - notch["depth"] if notch["edge"] == "top" else 0.0
    across: float = max(abs(hole["x"] - notch["x"]) - notch["length"] / 2, 0.0)
    up: float = max(low - hole["y"], hole["y"] - low - notch["depth"], 0.0)
    radius: float = hole["diameter"] / 2
    return hypot(across, up) - radius


def american_stud(stud: Item) -> Told:
    """Work out the status of every rule for a stud with something cut in it."""
    told: Told = {}
    free = stud.get("bearing") is False
    for hole in stud["holes"]:
        left = min(hole["x"], stud["depth"] - hole["x"]) - hole["diameter"] / 2
        told["stud-cover", hole["id"], None] = "pass" if hole["protection"] in PLATES else _least(left, 32)
        told["stud-hole-edge", hole["id"], None] = _least(left, 16)
        told["stud-hole-size", hole["id"], None] = _most(
            hole["diameter"], stud["depth"] * (3 if free else 2) / 5
        )
    for notch in stud["notches"]:
        told["stud-cover", notch["id"], None] = "pass" if notch["protection"] in PLATES else "fail"
        told["stud-notch-depth", notch["id"], None] = _most(
            notch["depth"], stud["depth"] / (2.5 if free else 4)
        )
        for hole in stud["holes"]:
            gap = max(hole["y"], notch["y"]) - min(hole["y"], notch["y"])
            clear = gap - hole["diameter"] / 2 - notch["length"] / 2
            told["stud-notch-gap", notch["id"], hole["id"]] = _least(clear, 0)
    return told


def cable_run(joist: Item, run: Item, country: str) -> Told:
    """Work out the status of the two rules for a run."""
    name, american = run["id"], country == "us"
    frees = run["protection"] in (PLATES if american else COVERED) or (run["supply"] != "lv" and not american)
    ends = [run.get("from", 0.0), run.get("to", joist["span"])]
    on = all(-EQUAL <= x <= joist["span"] + EQUAL for x in ends)
    if run["place"] == "side":
        below, above = _sides(joist, run, american=american)
        on = on and below >= -EQUAL and above >= -EQUAL
        nailed = {"top": below, "bottom": above}
        cover = _least(min(nailed[edge] for edge in NAILED[run["void"]]), 32 if american else 50)
    else:
        edge = {"over": "top", "under": "bottom"}.get(run["place"])
        cover = "fail" if edge in NAILED[run["void"]] else "caution"
    return {
        ("run-cover", name, None): "pass" if frees else cover,
        ("run-on-joist", name, None): "pass" if on else "fail",
    }


def _sides(joist: Item, run: Item, *, american: bool) -> tuple[float, float]:
    """Return how far the cable or its conduit lies below the top and above the bottom [mm]."""
    usual = {
        "plastic-conduit": 21 if american else 20,
        "earthed-steel-conduit": 20,
        "rigid-steel-conduit": 21,
    }
    size = usual.get(run["protection"])
    high = run["cable"]["width"] if size is None else run.get("outer", size)
    if "below_top" in run:
        return run["below_top"], joist["depth"] - run["below_top"] - high
    return joist["depth"] - run["above_bottom"] - high, run["above_bottom"]
