"""A cupboard with several screws hangs just where each screw by itself would pass."""

from itertools import product

import pytest
from shapely import Point

from tests.rules.cases import UK, Data, accessory, judged, made, wall
from zonelib.rules.fixing_rules import avoid_region, hanging_region
from zonelib.site.model import Side

OFFSETS = [(400.0, 0.0), (100.0, -300.0)]
"""No mirror image of itself, so that a screw looked for on the other side is missed."""

SOCKETS = [accessory("S1", 1200, 450), accessory("S2", 2500, 1400, face="rear", width=86)]


def case(x: float, y: float, side: Side) -> Data:
    screws = [
        {
            "id": f"F{n}",
            "wall": "W1",
            "face": side,
            "x": x + dx,
            "y": y + dy,
            "penetration": 30,
            "diameter": 8,
        }
        for n, (dx, dy) in enumerate([(0.0, 0.0), *OFFSETS])
    ]
    return {"pack": "uk", "walls": [wall(accessories=SOCKETS)], "fixings": screws}


@pytest.mark.parametrize("side", ["front", "rear"])
def test_a_group_hangs_where_every_one_of_its_screws_passes_and_nowhere_else(side: Side) -> None:
    one = made(case(0, 0, side)).walls[0]
    region = hanging_region(one, side, UK, OFFSETS, diameter=8)
    hung = []
    for x, y in product(range(51, 3600, 150), range(47, 2400, 130)):
        if region.boundary.distance(Point(x, y)) > 1:
            passes = judged(case(x, y, side)).passed
            assert region.contains(Point(x, y)) == passes, (x, y)
            hung.append(passes)
    assert 20 < sum(hung) < len(hung) - 20


@pytest.mark.parametrize("diameter", [0, 5, 20])
def test_the_region_to_avoid_grows_by_half_the_drill_and_half_a_cable(diameter: float) -> None:
    one = made(case(0, 0, "front")).walls[0]
    edge = 1273 + diameter / 2 + 10
    region = avoid_region(one, "front", UK, diameter=diameter)
    assert region.contains(Point(edge - 0.1, 1500))
    assert not region.contains(Point(edge + 0.1, 1500))


def test_a_pack_that_knows_no_cable_of_its_own_grows_it_by_the_drill_alone() -> None:
    one = made(case(0, 0, "front")).walls[0]
    region = avoid_region(one, "front", UK.model_copy(update={"fixings": None}), diameter=8)
    assert region.contains(Point(1273 + 3.9, 1500))
    assert not region.contains(Point(1273 + 4.1, 1500))
