"""Every piece of a zone says what makes it, where it lies, and why; strips end where an opening begins."""

from typing import Any

import pytest

from tests.rules.cases import Data, accessory, judged, opening, wall
from zonelib import load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import Zone, zone_area, zones
from zonelib.site.load import case_from_data
from zonelib.site.model import Side

DE = load_pack("de")
SEEN = {"locatable_from_reverse": True}
Bounds = tuple[float, float, float, float]


def pieces(side: Side = "front", *, pack: str = "uk", **changes: Any) -> tuple[Zone, ...]:
    rules = load_pack(pack)
    (one,) = case_from_data({"pack": pack, "walls": [wall(**changes)]}, rules.vocabulary).walls
    return zones(one, side, Rulebook(rules), joined=None)


def told(found: tuple[Zone, ...]) -> list[tuple[str, str, Bounds]]:
    return [(zone.source, zone.form, zone.area.bounds) for zone in found]


# Of a wall 3600 x 2400 with a socket of 146 x 86 at 1200, 450 (DESIGN 5.3; arithmetic, grade D).
BRITISH = [
    ("top", "top", (0, 2250, 3600, 2400)),
    ("corner", "corner", (0, 0, 150, 2400)),
    ("corner", "corner", (1850, 0, 2150, 2400)),
    ("S1", "vertical", (1127, 0, 1273, 2400)),
    ("S1", "horizontal", (0, 407, 3600, 493)),
]
CORNERS = {"internal_corners": [0, 2000]}


@pytest.mark.parametrize(("side", "changes"), [
    ("front", {"front": CORNERS}),
    ("rear", {"rear": CORNERS, "thickness": 100, "accessories": [accessory("S1", 1200, 450, **SEEN)]}),
])  # fmt: skip
def test_each_british_piece_names_its_face_what_makes_it_and_its_clause(side: Side, changes: Data) -> None:
    found = pieces(side, **changes)
    assert told(found) == BRITISH
    assert {(zone.wall, zone.face, zone.clause) for zone in found} == {("W1", side, "522.6.202(i)")}
    assert [zone.reason for zone in found][-2:] == [
        "straight above and below S1", "level with S1, to either side",
    ]  # fmt: skip


GERMAN = [
    ("top", "top", (0, 1950, 4000, 2250)),
    ("floor", "floor", (0, 150, 4000, 450)),
    ("floor", "floor", (0, 1000, 4000, 1300)),
    ("D1", "beside", (1200, 0, 1400, 2400)),
    ("O1", "beside", (2200, 0, 2400, 2400)),
    ("O1", "beside", (3000, 0, 3200, 2400)),
    ("corner", "corner", (100, 0, 300, 2400)),
    ("S1", "vertical", (3660, 450, 3740, 740)),
]
"""FACTS 5, grade P: a door from 300 to 1100 with its lock on the right, a window from 2500 to 2900."""


@pytest.mark.parametrize("side", ["front", "rear"])
def test_each_german_piece_names_its_face_and_what_makes_it(side: Side) -> None:
    made = [opening("D1", 300, 0, 800, 1900, kind="door"), opening("O1", 2500, 900, 400, 600)]
    made[0]["lock_side"] = "right"
    plate = accessory("S1", 3700, 700, face=side, width=80, height=80)
    face = {side: {"internal_corners": [0], "worktop": True}}
    found = pieces(side, pack="de", length=4000, openings=made, accessories=[plate], **face)
    assert told(found) == GERMAN
    assert {(zone.wall, zone.face, zone.clause) for zone in found} == {("W1", side, "DIN 18015-3")}
    assert found[3].reason == "100 to 300 mm beside door D1, on its lock side"


def test_the_whole_of_a_wall_lower_than_the_band_lies_in_it_and_nothing_below_the_floor() -> None:
    low = pieces(height=120, accessories=[])
    assert told(low) == [("top", "top", (0, 0, 3600, 120))]


def strip(form: str, *openings: Data) -> tuple[float, float]:
    """Return from where to where a strip of a plate at 1200, 1000 runs, at its middle."""
    plate = accessory("S1", 1200, 1000)
    found = next(zone for zone in pieces(accessories=[plate], openings=openings) if zone.form == form)
    left, low, right, high = found.area.bounds
    return (left, right) if form == "horizontal" else (low, high)


# Touching an edge does not block (DESIGN 5.3): the opening ends just where the plate's centre line runs.
@pytest.mark.parametrize(
    ("form", "box", "expected"),
    [
        ("horizontal", (1000, 900, 200, 200), (1200, 3600)),
        ("horizontal", (1200, 900, 200, 200), (0, 1200)),
        ("vertical", (1100, 800, 200, 200), (1000, 2400)),
        ("vertical", (1100, 1000, 200, 200), (0, 1000)),
    ],
)
def test_an_opening_that_touches_the_centre_line_blocks_its_own_side_only(
    form: str, box: tuple[float, float, float, float], expected: tuple[float, float]
) -> None:
    assert strip(form, opening("O1", *box)) == expected


def test_an_opening_over_the_centre_line_blocks_both_sides_to_their_ends() -> None:
    across = [opening("O1", 1150, 900, 100, 200)]
    found = zone_area([zone for zone in pieces(accessories=[accessory("S1", 1200, 1000)], openings=across)
                       if zone.source == "S1"])  # fmt: skip
    # 23 mm of the upright strip stay to either side of it, 2400 high, and nothing of the level one.
    assert found.area == pytest.approx(2 * 23 * 2400)


def test_who_drills_fears_a_door_whose_lock_side_is_not_told_on_either_side() -> None:
    for x, lock, due in (
        (700, None, "fail"),
        (2100, None, "fail"),
        (700, "left", "fail"),
        (700, "right", "pass"),
    ):
        door = {**opening("D1", 900, 0, 1000, 2000, kind="door"), **({"lock_side": lock} if lock else {})}
        fixing = {
            "id": "F1",
            "wall": "W1",
            "face": "front",
            "x": x,
            "y": 1200,
            "penetration": 30,
            "diameter": 5,
        }
        case = {"pack": "de", "walls": [wall(openings=[door], accessories=[])], "fixings": [fixing]}
        assert [one.status for one in judged(case, DE).findings] == [due], (x, lock)


def test_a_device_half_a_millimetre_out_of_a_level_zone_is_fed_by_a_stub() -> None:
    # Its middle at 450.5 lies over the zone that ends at 450; the plate reaches to 490.5.
    found = pieces(pack="de", accessories=[accessory("S1", 1200, 450.5, width=80, height=80)])
    assert told(found)[-1] == ("S1", "vertical", (1160, 450, 1240, 490.5))
