"""FACTS about walls, each row with its clause and grade: the wording behind it was never seen first-hand.

Grades: Q clause wording seen quoted, P paraphrased by guidance, C common practice, M memory, D derived.
"""

from typing import Any

import pytest

from tests.rules.cases import RCD, UK, accessory, by_rule, found, judged, one_route, opening
from tests.rules.outside import stated

UP = [(1200, 450), (1200, 2400)]
SLANT = [(1200, 450), (2400, 2100)]
FAR = [(2000, 300), (2000, 2000)]
CORNERS = {"internal_corners": [0, 2000], "external_corners": [3600]}
LIGHT = accessory("L1", 3000, 1200, kind="switch", width=86)
THIN = {"thickness": 100, "accessories": [accessory("S1", 1200, 450, locatable_from_reverse=True)]}
HIDDEN = {"thickness": 100, "accessories": [accessory("S1", 1200, 450, locatable_from_reverse=False)]}
UNKNOWN = {"thickness": 100, "accessories": [accessory("S1", 1200, 450)]}
REAR = {"depth_from": "rear"}
DOOR = [opening("D1", 2000, 0, 800, 2000, kind="door")]
ABOVE = [opening("O1", 1000, 1000, 400, 500)]
BLANK = {"accessories": [accessory("S1", 1200, 450, kind="blank-plate")]}
SLOPE = {"top": [(0, 2400), (1800, 1500), (3600, 1500)], "joins": []}
LOW = {"top": [(0, 100), (3600, 2500)], "accessories": [], "joins": [],
       "readings": {"width_inside": "centre-line"}}  # fmt: skip
METAL = {"build": "metal-stud"}
NA = "not-applicable"
RULES = {"zone": "wall-zone", "rcd": "wall-rcd", "metal": "metal-wall"}

# what is stated; points; what is changed; what comes of zone, rcd and metal; clause of 522.6 and grade
Row = tuple[str, Any, dict[str, Any], dict[str, str], str]
ROWS: list[Row] = [
    ("49.9 deep is concerned", SLANT, {"depth": 49.9}, {"zone": "fail"}, ".202 Q"),
    ("exactly 50 is not", SLANT, {"depth": 50.0}, {"zone": NA, "rcd": NA}, ".202 Q"),
    ("50 from the rear is not", SLANT, {"depth": 50, **REAR}, {"zone": NA}, ".202 Q"),
    ("49.9 from the other face is", SLANT, {"depth": 80, "thickness": 135.9}, {"zone": "fail"}, ".202 Q"),
    ("50.0 from the other face is not", SLANT, {"depth": 80, "thickness": 136}, {"zone": NA}, ".202 Q"),
    ("edge 150 below the top", [(0, 2255), (3600, 2255)], {}, {"zone": "pass"}, ".202(i) Q"),
    ("edge 150.1 below the top", [(0, 2254.9), (3600, 2254.9)], {}, {"zone": "fail"}, ".202(i) Q"),
    ("edge 150 from a corner", [(145, 0), (145, 2400)], {"front": CORNERS}, {"zone": "pass"}, ".202(i) Q"),
    ("edge 150.1 from a corner", [(145.1, 0), (145.1, 2400)], {"front": CORNERS}, {"zone": "fail"},
     ".202(i) Q"),
    ("left of a corner in mid-wall", [(1855, 0), (1855, 2400)], {"front": CORNERS}, {"zone": "pass"},
     ".202(i) Q"),
    ("too far left of it", [(1854.9, 0), (1854.9, 2400)], {"front": CORNERS}, {"zone": "fail"}, ".202(i) Q"),
    ("right of a corner in mid-wall", [(2145, 0), (2145, 2400)], {"front": CORNERS}, {"zone": "pass"},
     ".202(i) Q"),
    ("too far right of it", [(2145.1, 0), (2145.1, 2400)], {"front": CORNERS}, {"zone": "fail"}, ".202(i) Q"),
    ("the other face's corner does not count", [(100, 0), (100, 2400)], {"rear": CORNERS},
     {"zone": "fail"}, ".202(i) Q"),
    ("an external corner", [(3500, 0), (3500, 2400)], {"front": CORNERS}, {"zone": "pass"}, ".202(i) Q"),
    ("straight up, at the plate's edge", [(1268, 450), (1268, 2400)], {}, {"zone": "pass"}, "width C"),
    ("straight up, past the plate's edge", [(1268.1, 450), (1268.1, 2400)], {}, {"zone": "fail"}, "width C"),
    ("level, at the plate's edge", [(0, 488), (3600, 488)], {}, {"zone": "pass"}, "width C"),
    ("level, past the plate's edge", [(0, 488.1), (3600, 488.1)], {}, {"zone": "fail"}, "width C"),
    ("below it as well", [(1200, 450), (1200, 0)], {}, {"zone": "pass"}, ".202(i) Q"),
    ("on the slant", SLANT, {}, {"zone": "fail"}, ".202(i) Q"),
    ("not connected to it", UP, {"joins": []}, {"zone": "fail"}, ".202(i) Q"),
    ("connected to another", [(3000, 450), (3000, 1200)],
     {"accessories": [accessory("S1", 1200, 450), LIGHT]}, {"zone": "fail"}, ".202(i) Q"),
    ("on the other face of a thick wall", UP, REAR, {"zone": "fail"}, ".202(i) Q"),
    ("100 thick and locatable", UP, {**THIN, **REAR}, {"zone": "pass"}, ".202(i) Q"),
    ("100.1 thick", UP, {**THIN, **REAR, "thickness": 100.1}, {"zone": "fail"}, ".202(i) Q"),
    ("100 thick, not locatable", UP, {**HIDDEN, **REAR}, {"zone": "fail"}, ".202(i) Q"),
    ("100 thick, nobody knows whether locatable", UP, {**UNKNOWN, **REAR}, {"zone": "fail"}, ".202(i) Q"),
    ("shallow, in the zone, RCD", UP, {}, {"zone": "pass", "rcd": "pass"}, ".202 P"),
    ("shallow, in the zone, no RCD", UP, {"rcd": None}, {"zone": "pass", "rcd": "fail"}, ".202 P"),
    ("shallow, outside, RCD", SLANT, {}, {"zone": "fail", "rcd": "pass"}, ".202 P"),
    ("shallow, outside, no RCD", SLANT, {"rcd": None}, {"zone": "fail", "rcd": "fail"}, ".202 P"),
    ("metal, deep, RCD", SLANT, {**METAL, "depth": 80}, {"zone": NA, "metal": "pass"}, ".203 Q"),
    ("metal, deep, no RCD", SLANT, {**METAL, "depth": 80, "rcd": None}, {"metal": "fail"}, ".203 Q"),
    ("metal, shallow, outside, RCD", SLANT, METAL, {"zone": "fail", "metal": "pass"}, ".203 Q"),
    ("metal, shallow, in the zone, no RCD", UP, {**METAL, "rcd": None}, {"rcd": "fail",
     "metal": "fail"}, ".203 Q"),
    ("no metal", UP, {"rcd": None}, {"metal": NA}, ".203 Q"),
    ("no zone along the floor", [(100, 100), (3500, 100)], {}, {"zone": "fail"}, "P"),
    ("none beside a door", [(1950, 0), (1950, 2400)], {"openings": DOOR}, {"zone": "fail"}, "D"),
    ("none above a door", [(2000, 2050), (2800, 2050)], {"openings": DOOR}, {"zone": "fail"}, "D"),
    ("none beside a window", [(1450, 900), (1450, 1600)], {"openings": ABOVE}, {"zone": "fail"}, "D"),
    ("30 mA", UP, {"rcd": {"ma": 30}}, {"rcd": "pass"}, "415.1.1 M"),
    ("30.1 mA", UP, {"rcd": {"ma": 30.1}}, {"rcd": "fail"}, "415.1.1 M"),
    ("100 mA", UP, {"rcd": {"ma": 100}}, {"rcd": "fail"}, "415.1.1 M"),
    ("time-delayed", UP, {"rcd": {"ma": 30, "delayed": True}}, {"rcd": "fail"}, "415.1.1 M"),
    ("at the outlet end", UP, {"rcd": {"ma": 30, "at": "outlet"}}, {"rcd": "fail"}, "415.1.1 D"),
    ("150 below a top down to 100", [(300, 150), (3000, 1950)], LOW, {"zone": "pass"}, ".202(i) Q"),
    ("150.1 below it", [(300, 149.9), (3000, 1949.9)], LOW, {"zone": "fail"}, ".202(i) Q"),
    ("FACTS 8: metal stud, 60 deep, no RCD", SLANT, {**METAL, "depth": 60, "rcd": None},
     {"metal": "fail"}, "D"),
    ("FACTS 8: metal stud, 60 deep, RCD, no zone", SLANT, {**METAL, "depth": 60}, {"metal": "pass",
     "zone": NA, "rcd": NA}, "D"),
    ("FACTS 8: timber stud, 30 deep, RCD, no zone", SLANT, {"depth": 30}, {"zone": "fail",
     "rcd": "pass"}, "D"),
    ("FACTS 8: SELV, 10 deep, slanting, metal stud", SLANT, {**METAL, "depth": 10, "supply": "selv",
     "rcd": None}, {"zone": "pass", "rcd": NA, "metal": "pass"}, ".204 Q"),
    ("PELV the same", SLANT, {**METAL, "depth": 10, "supply": "pelv", "rcd": None}, {"zone": "pass",
     "rcd": NA, "metal": "pass"}, ".204 Q"),
    ("FACTS 8: plastic capping, 10 deep, in zone, no RCD", UP, {"depth": 10,
     "protection": "plastic-capping", "rcd": None}, {"zone": "pass", "rcd": "fail"}, "D"),
]  # fmt: skip

# where the trade disagrees: the reading, a case that it decides, and what either value comes to (C, or D)
READINGS: list[tuple[str, Any, dict[str, Any], dict[str, str]]] = [
    ("borrow_zones", UP, {"joins": []}, {"no": "fail", "yes": "pass"}),
    ("rcd_outside_zone", SLANT, {}, {"no": "fail", "yes": "pass"}),
    ("rcd_outside_zone", SLANT, {"rcd": None}, {"no": "fail", "yes": "fail"}),
    ("external_corners", [(3500, 0), (3500, 2400)], {"front": CORNERS}, {"yes": "pass", "no": "fail"}),
    ("external_corners", [(100, 0), (100, 2400)], {"front": CORNERS}, {"yes": "pass", "no": "pass"}),
    ("openings_cut_strips", [(1200, 1600), (1200, 2400)], {"openings": ABOVE}, {"yes": "fail", "no": "pass"}),
    ("blank_plates", UP, BLANK, {"yes": "pass", "no": "fail"}),
    ("sloping_top", [(300, 2098), (900, 1798)], SLOPE, {"vertical": "fail", "perpendicular": "pass"}),
    ("width_inside", [(0, 2250), (3600, 2250)], {}, {"whole": "fail", "centre-line": "pass"}),
    ("width_inside", [(0, 2249.9), (3600, 2249.9)], {}, {"whole": "fail", "centre-line": "fail"}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("points", "changes", "expected"),
    [
        pytest.param(
            *row[1:4], id=f"{row[0]} [{row[4]}]", marks=stated(row[4], *(RULES[name] for name in row[3]))
        )
        for row in ROWS
    ],
)
def test_a_published_fact(points: Any, changes: dict[str, Any], expected: dict[str, str]) -> None:
    statuses = by_rule(judged(one_route(points, **changes)))
    assert {name: statuses[RULES[name]] for name in expected} == expected


@pytest.mark.outside("wall-zone", source="the trade disagrees: each value as it is read", grade="C")
@pytest.mark.parametrize(("name", "points", "changes", "expected"), READINGS)
def test_a_reading(name: str, points: Any, changes: dict[str, Any], expected: dict[str, str]) -> None:
    assert set(expected) == set(UK.readings[name].values)
    for value, status in expected.items():
        verdict = judged(one_route(points, **changes, readings={name: value}))
        assert by_rule(verdict)["wall-zone"] == status, value


def test_every_reading_about_walls_is_tried() -> None:
    assert {row[0] for row in READINGS} == set(UK.readings) - {"joist_cover_to"}


# 522.6.204 (i) to (iv) as quoted (Q); plastic and thin steel do not meet it (P); a plate of 3 mm is the
# rule of thumb (C).
COUNTS = [
    "earthed-steel-conduit", "earthed-steel-trunking", "armoured-cable", "earthed-screen-cable",
    "mineral-insulated-cable", "steel-plate",
]  # fmt: skip
DOES_NOT = ["none", "plastic-capping", "plastic-conduit", "steel-capping", "unearthed-steel-conduit"]
COVERED = ("wall-zone", "wall-rcd", "metal-wall")
COVERINGS = [
    *(pytest.param(name, marks=stated(".204 Q", *COVERED)) for name in COUNTS[:-1]),
    pytest.param("steel-plate", marks=stated("rule of thumb for 522.6.204(iv) C", *COVERED)),
    *(pytest.param(name, marks=stated(".204 P", *COVERED)) for name in DOES_NOT),
]


@pytest.mark.parametrize("build", ["timber-stud", "metal-stud"])
@pytest.mark.parametrize("protection", COVERINGS)
def test_a_covering_that_counts_stands_for_zone_and_rcd(protection: str, build: str) -> None:
    verdict = judged(one_route(SLANT, protection=protection, rcd=None, build=build, depth=10))
    statuses, counts = by_rule(verdict), protection in COUNTS
    assert statuses["wall-zone"] == ("pass" if counts else "fail")
    assert statuses["wall-rcd"] == ("not-applicable" if counts else "fail")
    metal = ("pass" if counts else "fail") if build == "metal-stud" else "not-applicable"
    assert statuses["metal-wall"] == metal


def test_every_protection_of_the_pack_is_tried() -> None:
    assert set(UK.protections) == {*COUNTS, *DOES_NOT}
    assert all(UK.protections[name].why for name in (*COUNTS, *DOES_NOT))


@pytest.mark.outside(*COVERED, source="BS 7671 522.6.204(i) to (iii)", grade="Q")
@pytest.mark.parametrize(
    ("protection", "standards"),
    [
        ("armoured-cable", {"BS 5467", "BS 6724", "BS 7846"}),
        ("earthed-screen-cable", {"BS 8436"}),
        ("mineral-insulated-cable", {"BS EN 60702-1"}),
        ("earthed-steel-conduit", {"BS EN 61386-21"}),
        ("earthed-steel-trunking", {"BS EN 50085"}),
        ("steel-plate", set()),
    ],
)
def test_the_standards_of_a_covering_are_those_the_clause_lists(protection: str, standards: set[str]) -> None:
    assert set(UK.protections[protection].standards) == standards


@pytest.mark.outside(*COVERED, source="rule of thumb: 522.6.204 gives no thickness", grade="C")
def test_a_plate_is_told_to_be_3_mm() -> None:
    assert "3 mm or more" in UK.protections["steel-plate"].words


@pytest.mark.outside("wall-zone", source="published guidance", grade="P")
def test_a_horizontal_zone_does_not_turn_a_corner() -> None:
    # FACTS 1: level with S1 on the next wall, and connected to it.
    data = one_route([(200, 450), (3000, 450)])
    data["walls"].append({**data["walls"][0], "id": "W2", "accessories": []})
    assert by_rule(judged(data))["wall-zone"] == "pass"
    data["routes"][0]["wall"] = "W2"
    assert by_rule(judged(data))["wall-zone"] == "fail"


@pytest.mark.outside("wall-zone", source="BS 7671 522.6.202(i)", grade="Q")
def test_a_corner_counts_on_each_of_its_walls() -> None:
    for end, corner in ((100, 0), (3500, 3600)):
        data = one_route([(end, 0), (end, 2400)], front={"internal_corners": [corner]})
        assert by_rule(judged(data))["wall-zone"] == "pass"


@pytest.mark.outside("wall-zone", source="BS 7671 522.6.202(i)", grade="Q")
@pytest.mark.parametrize("kind", ["buried-box", "radiator", "pipe", "mirror"])
def test_what_is_no_point_of_the_installation_makes_no_zone(kind: str) -> None:
    # The clause speaks of points, accessories and switchgear.
    data = one_route(UP, accessories=[accessory("S1", 1200, 450, kind=kind)])
    assert by_rule(judged(data))["wall-zone"] == "fail"


@pytest.mark.outside("wall-zone", source="arithmetic, with the flat cables of one published list", grade="D")
@pytest.mark.parametrize("thickness", [50, 75, 100])
@pytest.mark.parametrize("cable", [4.25, 6.0, 10.0])
def test_in_a_wall_of_100_or_less_every_cable_concerns_a_face(thickness: float, cable: float) -> None:
    for step in range(0, int(thickness - cable) + 1, 4):
        data = one_route(SLANT, thickness=thickness, depth=step, cable={"width": 10, "thickness": cable})
        assert by_rule(judged(data))["wall-zone"] == "fail"


@pytest.mark.outside("wall-zone", source="DESIGN 4, worked by an independent hand", grade="D")
def test_the_sample_of_the_case_file() -> None:
    # 493.6 mm outside, from 157.1 to 2001.3 along the route.
    front = {"internal_corners": [0], "external_corners": [3600], "finish": 13}
    door = [opening("D1", 2600, 0, 826, 2040, kind="door")]
    sockets = [accessory("S1", 1200, 450, locatable_from_reverse=True)]
    data = one_route(
        [(1200, 450), (300, 2330)], thickness=100, front=front, openings=door, accessories=sockets,
        cable={"width": 10.3, "thickness": 6.0}, rcd=RCD,
    )  # fmt: skip
    finding = found(judged(data), "wall-zone", face="front").as_data()
    assert finding["measured"] == pytest.approx(493.6, abs=0.05)
    assert (finding["limit"], finding["operator"], finding["unit"]) == (0.0, "<=", "mm")
    assert finding["where"]["legs"] == [1]
    assert finding["where"]["from_mm"] == pytest.approx(157.1, abs=0.05)
    assert finding["where"]["to_mm"] == pytest.approx(2001.3, abs=0.05)
    assert found(judged(data), "wall-zone", face="rear").status == "not-applicable"
