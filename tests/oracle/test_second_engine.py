"""A second geometry engine draws the same zones: their areas agree to a thousandth, tile by tile."""

from __future__ import annotations

from random import Random

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from tests.oracle.clipped import area, de_zone, tiles, uk_zone
from tests.oracle.draw_de import draw_de_wall
from tests.oracle.draw_walls import draw_wall
from tests.oracle.facts import READINGS, Item
from zonelib import load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import zone_area, zones
from zonelib.site.load import case_from_data
from zonelib.site.model import Side

WALLS = 30
"""Of each country."""

THOUSANDTH = 0.001
DE_READINGS: dict[str, tuple[str, ...]] = {"external_corners": ("no", "yes")}

Ask = tuple[Item, Side, dict[str, str], list[str]]


def ask(pack: str, seed: int) -> Ask:
    """Draw a wall, a face of it, readings, and the accessories that a cable joins."""
    rng = Random(f"areas {pack} {seed}")
    draw = draw_wall if pack == "uk" else draw_de_wall
    wall = max((draw(rng, "W1") for _ in range(3)), key=_crowd)
    reading = {name: rng.choice(values) for name, values in _readings(pack).items()}
    names = [one["id"] for one in wall["accessories"]]
    return (
        wall,
        rng.choice(["front", "rear"]),
        reading,
        rng.sample(names, rng.randint(len(names) // 2, len(names))),
    )


def _crowd(wall: Item) -> int:
    return min(len(wall["openings"]), 2) + min(len(wall["accessories"]), 3)


def _readings(pack: str) -> dict[str, tuple[str, ...]]:
    return (
        {name: READINGS[name] for name in READINGS if name != "joist_cover_to"}
        if pack == "uk"
        else DE_READINGS
    )


def by_shapely(pack: str, asked: Ask) -> list[float]:
    """Return the engine's zone, cut into the same nine tiles [mm2]."""
    raw, side, reading, joins = asked
    rules = load_pack(pack)
    case = case_from_data({"pack": pack, "walls": [raw], "readings": reading}, rules.vocabulary)
    zone = zone_area(zones(case.walls[0], side, Rulebook(rules, reading), joined=joins))
    wide, high = raw["length"] / 3, max(y for _, y in case.walls[0].profile) / 3
    return [_tile(zone, i * wide, j * high, wide, high) for i in range(3) for j in range(3)]


def _tile(zone: BaseGeometry, x: float, y: float, wide: float, high: float) -> float:
    return float(zone.intersection(shapely.box(x, y, x + wide, y + high)).area)


@pytest.mark.parametrize("pack", ["uk", "de"])
@pytest.mark.parametrize("seed", range(WALLS))
def test_the_zones_of_a_wall_have_the_area_a_second_engine_finds(pack: str, seed: int) -> None:
    asked = ask(pack, seed)
    drawn = (uk_zone if pack == "uk" else de_zone)(*asked)
    ours, theirs = by_shapely(pack, asked), tiles(asked[0], drawn)
    assert sum(theirs) == pytest.approx(area(drawn), rel=1e-6, abs=1)
    assert ours == pytest.approx(theirs, rel=THOUSANDTH, abs=THOUSANDTH * 100)
    assert sum(ours) == pytest.approx(sum(theirs), rel=THOUSANDTH)


def test_the_walls_hold_what_could_go_astray() -> None:
    asked = [ask(pack, seed) for pack in ("uk", "de") for seed in range(WALLS)]
    walls = [wall for wall, *_ in asked]
    assert sum("top" in wall for wall in walls) >= 20
    assert sum(wall["thickness"] <= 100 for wall in walls) >= 20
    assert sum(bool(wall["openings"]) for wall in walls) >= 20
    assert sum(reading.get("sloping_top") == "perpendicular" for *_, reading, _ in asked) >= 10
    whole = [(*one[:2], {**one[2], "openings_cut_strips": "no"}, one[3]) for one in asked[:WALLS]]
    cut = [area(uk_zone(*one)) < area(uk_zone(*other)) for one, other in zip(asked, whole, strict=False)]
    assert sum(cut) >= 5


def test_a_plate_beside_a_window_is_drawn_as_worked_on_paper() -> None:
    # 3600 x 2400, a plate of 146 x 86 at 1200, 450; a window from 2000 to 2400, 400 to 470 (grade D):
    # top 3600 x 150; strips 146 x 2250 and 3600 x 86 less their crossing 146 x 86; off it what the window
    # hides: from 2000 to 3600, 407 to 470.
    plate = {"id": "S1", "kind": "socket", "face": "front", "x": 1200, "y": 450, "width": 146, "height": 86}
    window = {"id": "O1", "kind": "window", "x": 2000, "y": 400, "width": 400, "height": 70}
    wall = {"id": "W1", "length": 3600, "height": 2400, "thickness": 200, "build": "masonry",
            "openings": [window], "accessories": [plate]}  # fmt: skip
    reading = {name: values[0] for name, values in READINGS.items()}
    due = 3600 * 150 + 146 * 2250 + 3600 * 86 - 146 * 86 - 1600 * 63
    assert area(uk_zone(wall, "front", reading, ["S1"])) == pytest.approx(due)
    asked: Ask = (wall, "front", {}, ["S1"])
    assert sum(by_shapely("uk", asked)) == pytest.approx(due)
