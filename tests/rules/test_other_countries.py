"""Other countries are data: their numbers, and what is decided by them."""

from typing import Any

import pytest

from zonelib import judge, load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import Zone, zones
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

DOOR = {"id": "D1", "kind": "door", "x": 1500, "y": 0, "width": 1000, "height": 2000, "lock_side": "left"}
WINDOW = {"id": "O1", "kind": "window", "x": 3000, "y": 900, "width": 600, "height": 900}
SOCKET = {"id": "S1", "kind": "socket", "face": "front", "x": 900, "y": 1100, "width": 80, "height": 80}


def case(
    pack: str, points: list[list[float]], *, wall: dict[str, Any] | None = None, **route: object
) -> Case:
    stated = {"id": "W1", "length": 4500, "height": 2400, "thickness": 240, "build": "masonry",
              "front": {"internal_corners": [0]}, "openings": [DOOR, WINDOW], "accessories": [SOCKET],
              **(wall or {})}  # fmt: skip
    cable = {"width": 10, "thickness": 6}
    run = {"id": "R1", "wall": "W1", "points": points, "depth": 20, "cable": cable, **route}
    data = {"pack": pack, "walls": [stated], "routes": [run]}
    return case_from_data(data, load_pack(pack).vocabulary)


def pieces(form: str, source: str = "", *, wall: dict[str, Any] | None = None) -> list[Zone]:
    one = case("de", [[0, 300], [10, 300]], wall=wall).walls[0]
    found = zones(one, "front", Rulebook(load_pack("de")), joined=["S1"])
    return [zone for zone in found if zone.form == form and source in ("", zone.source)]


def spans(found: list[Zone], axis: int) -> list[tuple[float, float]]:
    return [(zone.area.bounds[axis], zone.area.bounds[axis + 2]) for zone in found]


# DIN 18015-3:2016-09 as published guidance gives it (FACTS 5), in mm.
DIN = pytest.mark.outside("wall-zone", source="DIN 18015-3:2016-09", grade="P", pack="de")
ANZ = pytest.mark.outside("wall-rcd", source="AS/NZS 3000:2018 3.9.4", grade="P", pack="anz")


@DIN
def test_level_zones_lie_150_to_450_from_ceiling_and_floor() -> None:
    assert spans(pieces("top"), 1) == [(1950, 2250)]
    assert spans(pieces("floor"), 1) == [(150, 450)]


@DIN
def test_the_middle_zone_lies_1000_to_1300_above_the_floor_where_there_is_a_worktop() -> None:
    assert spans(pieces("floor", wall={"front": {"worktop": True}}), 1) == [(150, 450), (1000, 1300)]


@DIN
def test_upright_zones_lie_100_to_300_from_corner_window_and_lock_side() -> None:
    assert spans(pieces("corner"), 0) == [(100, 300)]
    assert spans(pieces("beside", "D1"), 0) == [(1200, 1400)]
    assert spans(pieces("beside", "O1"), 0) == [(2700, 2900), (3700, 3900)]


# a cable 10 wide on a wall without obstacles but those named: the last place within a zone, and 0.1 beyond it
LEVELS = [(155, -0.1), (445, 0.1), (1005, -0.1), (1295, 0.1), (1955, -0.1), (2245, 0.1)]
UPRIGHTS = [(105, -0.1), (295, 0.1), (1205, -0.1), (1395, 0.1), (2705, -0.1), (2895, 0.1), (3705, -0.1),
            (3895, 0.1)]  # fmt: skip


@DIN
@pytest.mark.parametrize(("y", "beyond"), LEVELS)
def test_the_edges_of_the_level_zones(y: float, beyond: float) -> None:
    bare = {"openings": [], "accessories": [], "front": {"internal_corners": [], "worktop": True}}
    assert judge(case("de", [[0, y], [4500, y]], wall=bare)).passed
    assert not judge(case("de", [[0, y + beyond], [4500, y + beyond]], wall=bare)).passed


@DIN
@pytest.mark.parametrize(("x", "beyond"), UPRIGHTS)
def test_the_edges_of_the_upright_zones(x: float, beyond: float) -> None:
    assert judge(case("de", [[x, 500], [x, 1900]])).passed
    assert not judge(case("de", [[x + beyond, 500], [x + beyond, 1900]])).passed


@DIN
@pytest.mark.parametrize(
    ("lock_side", "expected"),
    [("right", [(2600, 2800)]), ("both", [(1200, 1400), (2600, 2800)]), (None, [])],
)
def test_a_door_counts_on_its_lock_side_and_not_at_all_where_that_is_unknown(
    lock_side: str | None, expected: list[tuple[float, float]]
) -> None:
    door = {key: value for key, value in {**DOOR, "lock_side": lock_side}.items() if value is not None}
    assert spans(pieces("beside", "D1", wall={"openings": [door]}), 0) == expected


@pytest.mark.outside("wall-zone", source="published worked value for DIN 18015-3", grade="T", pack="de")
def test_above_a_door_of_2_m_in_a_room_of_2_4_m_the_strip_is_210_to_225_cm() -> None:
    over_door = [[1600.0, 2200.0], [2400.0, 2200.0]]
    assert judge(case("de", over_door)).passed
    for y, passed in ((2105.1, True), (2104.9, False), (2244.9, True), (2245.1, False)):
        level = [[1600, y], [2400, y]]
        assert judge(case("de", level)).passed is passed, y


@DIN
def test_an_accessory_outside_the_zones_is_fed_by_an_upright_stub_from_the_nearest_one() -> None:
    stub = pieces("vertical", "S1")
    assert [zone.area.bounds for zone in stub] == [(860, 450, 940, 1140)]
    assert judge(case("de", [[100, 300], [900, 300], [900, 1100]], joins=["S1"])).passed
    assert not judge(case("de", [[900, 2000], [900, 1100]], joins=["S1"])).passed


# "Up to 6 cm deep": exactly 60 mm is concerned.
@DIN
@pytest.mark.parametrize(("depth", "passed"), [(60, False), (60.1, True)])
def test_a_cable_of_up_to_60_mm_is_concerned(depth: float, passed: bool) -> None:
    assert judge(case("de", [[900, 700], [1400, 700]], depth=depth)).passed is passed


@DIN
def test_no_rcd_is_tied_to_the_zones() -> None:
    rules = {finding.rule for finding in judge(case("de", [[100, 300], [900, 300]])).findings}
    assert "wall-rcd" not in rules
    assert "metal-wall" not in rules


@pytest.mark.outside("wall-line", source="DIN 18015-3:2016-09", grade="P", pack="de")
def test_a_slanting_run_is_refused_even_within_a_zone() -> None:
    failed = judge(case("de", [[400, 200], [1000, 400]])).failures
    assert [finding.rule for finding in failed] == ["wall-line"]
    assert judge(case("de", [[400, 200], [1000, 400]], depth=100)).passed


# The level zone ends at 2250, 150 below the ceiling; half a drill of 5 and half a 20 mm cable make 12.5.
@pytest.mark.outside("fixing", source="two-way caution with the zones of DIN 18015-3", grade="D", pack="de")
@pytest.mark.parametrize(
    ("y", "penetration", "status"),
    [(2262.4, 59.9, "fail"), (2262.6, 59.9, "pass"), (2262.6, 60, "caution"), (2100, 20, "fail")],
)
def test_who_drills_keeps_clear_of_the_zones_there_too(y: float, penetration: float, status: str) -> None:
    fixing = {"id": "F1", "wall": "W1", "face": "front", "x": 2200, "y": y, "diameter": 5}
    stated = case("de", [[0, 300], [10, 300]]).model_dump(mode="json", by_alias=True, exclude_unset=True)
    data = {**stated, "fixings": [{**fixing, "penetration": penetration}]}
    one = case_from_data(data, load_pack("de").vocabulary)
    assert judge(one).findings[-1].status == status


# FACTS 6: an RCD alone passes there and fails in the UK.
@ANZ
@pytest.mark.parametrize(
    ("changes", "passed"),
    [
        ({}, False),
        ({"rcd": {"ma": 30}}, True),
        ({"rcd": {"ma": 30.1}}, False),
        ({"rcd": {"ma": 100}}, False),
        ({"protection": "armoured-cable"}, True),
        ({"protection": "earthed-steel-conduit"}, True),
        ({"protection": "steel-plate"}, True),
        ({"protection": "plastic-conduit"}, False),
        ({"depth": 50}, False),
        ({"depth": 50.1}, True),
        ({"supply": "selv"}, True),
    ],
)
def test_in_australia_and_new_zealand_any_one_of_rcd_or_covering_is_enough(
    changes: dict[str, Any], passed: bool
) -> None:
    slant = [[400.0, 200.0], [1000.0, 1400.0]]
    assert judge(case("anz", slant, **changes)).passed is passed


def test_the_rcd_that_is_enough_there_is_not_enough_in_the_uk() -> None:
    slant = [[400.0, 200.0], [1000.0, 1400.0]]
    assert not judge(case("uk", slant, rcd={"ma": 30}, wall={"build": "timber-stud"})).passed


# NEC 300.4 (FACTS 7, grade Q) sets no zones: 60 mm deep on a slant passes there, and fails in Germany.
@pytest.mark.parametrize(("pack", "passed"), [("us", True), ("uk", True), ("anz", True), ("de", False)])
def test_a_deep_slant_is_refused_only_where_lines_are_asked_for(pack: str, *, passed: bool) -> None:
    slant = [[400.0, 200.0], [1000.0, 1400.0]]
    assert judge(case(pack, slant, depth=60, wall={"build": "timber-stud"})).passed is passed


# The same cable under the rules of four countries: 40 mm deep, level with nothing, with and without an RCD.
@pytest.mark.parametrize(
    ("pack", "bare", "with_rcd"),
    [("us", False, False), ("uk", False, False), ("anz", False, True), ("de", False, False)],
)
def test_an_rcd_alone_is_enough_in_one_country_only(pack: str, bare: bool, with_rcd: bool) -> None:
    level = [[400.0, 700.0], [1000.0, 700.0]]
    for rcd, passed in (({}, bare), ({"rcd": {"ma": 30}}, with_rcd)):
        assert judge(case(pack, level, depth=40, wall={"build": "timber-stud"}, **rcd)).passed is passed


@pytest.mark.parametrize("pack", ["us", "de", "anz"])
def test_an_example_pack_says_that_it_is_for_practice_only(pack: str) -> None:
    assert "from secondary sources, practice only" in judge(case(pack, [[1, 1], [2, 1]])).edition
