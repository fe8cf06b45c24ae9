"""A verdict names the readings it rests on, and no others."""

import pytest

from zonelib import judge, load_pack
from zonelib.rules.deciding import deciding_readings
from zonelib.site.load import case_from_data

UK = load_pack("uk")


def decided_by(points: list[list[float]], joins: list[str], **wall: object) -> tuple[str, ...]:
    accessories = [
        {"id": "S1", "kind": "socket", "face": "front", "x": 600, "y": 450, "width": 146, "height": 86},
        {"id": "B1", "kind": "blank-plate", "face": "front", "x": 1500, "y": 450, "width": 86, "height": 86},
    ]
    data = {
        "pack": "uk",
        "walls": [{"id": "W1", "length": 3000, "height": 2400, "thickness": 140, "build": "timber-stud",
                   "accessories": accessories, **wall}],
        "routes": [{"id": "R1", "wall": "W1", "joins": joins, "points": points, "depth": 20,
                    "rcd": {"ma": 30}, "cable": {"width": 10, "thickness": 6}}],
    }  # fmt: skip
    case = case_from_data(data, UK.vocabulary)
    return deciding_readings(case, UK, judge(case, UK))


CORNER = {"front": {"external_corners": [3000]}}
WINDOW = {"openings": [{"id": "O1", "kind": "window", "x": 550, "y": 900, "width": 300, "height": 600}]}


@pytest.mark.parametrize(
    ("points", "joins", "wall", "expected"),
    [
        ([[600, 450], [600, 2300]], ["S1"], {}, ()),
        ([[1500, 450], [1500, 2300]], ["B1"], {}, ("blank_plates",)),
        ([[600, 450], [600, 2300]], [], {}, ("borrow_zones", "rcd_outside_zone")),
        ([[2900, 300], [2900, 2300]], [], CORNER, ("external_corners",)),
        ([[600, 1600], [600, 2300]], ["S1"], WINDOW, ("rcd_outside_zone", "openings_cut_strips")),
        ([[602, 2252], [2000, 2252]], [], {}, ("rcd_outside_zone", "width_inside")),
    ],
)
def test_a_reading_is_named_when_its_other_value_would_change_the_verdict(
    points: list[list[float]], joins: list[str], wall: dict[str, object], expected: tuple[str, ...]
) -> None:
    assert decided_by(points, joins, **wall) == expected
