"""Stubs: the straight way from a device to the nearest level zone (FACTS 5: DIN 18015-3:2016-09, grade P)."""

from typing import Any

import pytest

from tests.rules.cases import Data
from zonelib import judge, load_pack
from zonelib.site.load import case_from_data

DE = load_pack("de")


def passes(device: tuple[float, float], points: list[list[float]], **wall: Any) -> bool:
    """Tell whether a cable of 10 mm may run so to a device of 80 by 80 mm in a room 2400 mm high."""
    plate: Data = {"id": "S1", "kind": "switch", "face": "front", "width": 80, "height": 80}
    plate |= {"x": device[0], "y": device[1]}
    height = {} if "top" in wall else {"height": 2400}
    one = {"id": "W1", "length": 4000, "thickness": 240, "build": "masonry", "accessories": [plate], **height}
    route = {"id": "R1", "wall": "W1", "joins": ["S1"], "points": points, "depth": 20}
    route["cable"] = {"width": 10, "thickness": 6}
    case = case_from_data({"pack": "de", "walls": [{**one, **wall}], "routes": [route]}, DE.vocabulary)
    return judge(case, DE).passed


# The level zones of such a room end at 450 and begin at 1950: 1200 is 750 from both (arithmetic, grade D).
@pytest.mark.parametrize(
    ("y", "from_below", "from_above"), [(1200, True, True), (1199, True, False), (1201, False, True)]
)
def test_a_device_just_as_far_from_both_level_zones_is_fed_from_either(
    y: float, from_below: bool, from_above: bool
) -> None:
    assert passes((1000, y), [[1000, 300], [1000, y]]) is from_below
    assert passes((1000, y), [[1000, 2100], [1000, y]]) is from_above


def test_under_a_sloping_ceiling_the_stub_meets_the_zone_on_both_its_sides() -> None:
    # The ceiling falls 1 in 2: under x = 1000 it stands at 2500, so the zone begins at 2050 there.
    top = [[0, 3000], [4000, 1000]]
    for x in (965, 1000, 1035):
        assert passes((1000, 1500), [[x, 2200], [x, 1500]], top=top), x


def test_over_a_window_that_leaves_no_zone_at_the_floor_the_stub_comes_from_the_ceiling() -> None:
    # Grown by 100 the hatch takes 100 to 600, and with it all of 150 to 450, to which 900 is nearer.
    hatch = {"id": "H1", "kind": "hatch", "x": 800, "y": 200, "width": 400, "height": 300}
    assert passes((1000, 900), [[1000, 2100], [1000, 900]], openings=[hatch])
    assert not passes((1000, 900), [[1000, 2100], [1000, 900]])


def test_a_stub_ends_at_the_zone_and_never_runs_on_to_the_ceiling() -> None:
    assert passes((1000, 1600), [[1000, 2245], [1000, 1600]])
    assert not passes((1000, 1600), [[1000, 2246], [1000, 1600]])


def test_a_device_in_a_level_zone_has_no_stub() -> None:
    assert not passes((1000, 300), [[1000, 900], [1000, 300]])
