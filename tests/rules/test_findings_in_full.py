"""What a finding promises beside its verdict: its clause, the legs and marks it names, numbers, words."""

from typing import Any

import pytest

from tests.rules.cases import UK, Data, found, judged, one_route, wall
from zonelib import Finding, load_pack

DE = load_pack("de")
UP = [(1200, 450), (1200, 2330)]
SLANT = [(1200, 450), (300, 2330)]
BENT = [(1200, 450), (1200, 1000), (300, 1000), (300, 2330)]
METAL = {"build": "metal-stud"}
BRICK = {"build": "masonry", "thickness": 126}
PARTLY = {"protection": ["none", "armoured-cable", "none"]}
ARMOUR = {"protection": "armoured-cable"}
NO_RCD = {"rcd": None}
SELV = {"supply": "selv", **NO_RCD}
OUTLET = {"rcd": {"ma": 30, "at": "outlet"}}
DELAYED = {"rcd": {"ma": 30, "delayed": True}}
RCD_IS_ENOUGH = {"readings": {"rcd_outside_zone": "yes"}}

ALL, ENDS = (1, 2, 3), (1, 3)
EXACT = "Clause 522.6.202 of BS 7671:2018+A2:2022."
Row = tuple[str, Data, str, str, tuple[int, ...], tuple[float | None, float | None], tuple[str, ...]]

# rule; what is drawn; status and clause; legs; measured and limit; words that must stand in the text.
# BENT has legs of 550, 900 and 1330 mm; the cable is 10 mm wide and 20 mm deep in a wall of 200 mm.
ROWS: list[Row] = [
    (
        "wall-rcd",
        one_route(BENT, **NO_RCD, **PARTLY),
        "fail",
        "522.6.202",
        ENDS,
        (None, 30),
        (
            "legs 1 (a to b) and 3 (c to d)",
            "less than 50 mm",
            "The circuit has no RCD.",
            "30 mA or less",
            EXACT,
        ),
    ),
    (
        "wall-rcd",
        one_route(BENT, **PARTLY),
        "pass",
        "522.6.202",
        ENDS,
        (30, 30),
        ("legs 1 (a to b) and 3 (c to d)", "less than 50 mm", "The RCD of 30 mA", EXACT),
    ),
    (
        "wall-rcd",
        one_route(BENT, rcd={"ma": 100}),
        "fail",
        "522.6.202",
        ALL,
        (100, 30),
        ("legs 1 to 3", "Its RCD is rated 100 mA, above 30 mA."),
    ),
    (
        "wall-rcd",
        one_route(BENT, **OUTLET),
        "fail",
        "522.6.202",
        ALL,
        (None, None),
        ("Its RCD sits at the outlet, and protects nothing behind it.",),
    ),
    (
        "wall-rcd",
        one_route(BENT, **DELAYED),
        "fail",
        "522.6.202",
        ALL,
        (None, None),
        ("Its RCD is time-delayed, and cuts off too late.",),
    ),
    (
        "wall-rcd",
        one_route(BENT, rcd={"ma": 100, "delayed": True, "at": "outlet"}),
        "fail",
        "522.6.202",
        ALL,
        (100, 30),
        ("nothing behind it. Its RCD is time-delayed, and cuts off too late. Its RCD is rated 100 mA",),
    ),
    (
        "wall-rcd",
        one_route(BENT, **NO_RCD, **ARMOUR),
        "not-applicable",
        "522.6.202",
        ALL,
        (None, None),
        ("No leg that is less than 50 mm", "asks for no RCD", EXACT),
    ),
    (
        "metal-wall",
        one_route(BENT, **NO_RCD, **PARTLY, **METAL),
        "fail",
        "522.6.203",
        ENDS,
        (None, 30),
        ("legs 1 (a to b) and 3 (c to d)", "(metal stud)", "The circuit has no RCD.", "Clause 522.6.203"),
    ),
    (
        "metal-wall",
        one_route(BENT, **PARTLY, **METAL),
        "pass",
        "522.6.203",
        ALL,
        (30, 30),
        ("(metal stud)", "The RCD of 30 mA", "Clause 522.6.203"),
    ),
    (
        "metal-wall",
        one_route(BENT, depth=60, **OUTLET, **METAL),
        "fail",
        "522.6.203",
        ALL,
        (None, None),
        ("Its RCD sits at the outlet",),
    ),
    (
        "metal-wall",
        one_route(BENT, **SELV, **METAL),
        "pass",
        "522.6.203",
        ALL,
        (None, None),
        ("(metal stud)", "The supply is SELV"),
    ),
    (
        "metal-wall",
        one_route(BENT, **NO_RCD, **ARMOUR, **METAL),
        "pass",
        "522.6.203",
        ALL,
        (None, None),
        ("(metal stud)", "a covering that counts"),
    ),
    (
        "metal-wall",
        one_route(BENT, **NO_RCD),
        "not-applicable",
        "522.6.203",
        ALL,
        (None, None),
        ("This wall (timber stud) has no metal parts",),
    ),
    (
        "wall-zone",
        one_route(BENT, **SELV),
        "pass",
        "522.6.204",
        ALL,
        (None, None),
        ("The supply is SELV", "the front face", "Clause 522.6.204"),
    ),
    (
        "wall-zone",
        one_route(BENT, protection=["armoured-cable", "steel-plate", "armoured-cable"]),
        "pass",
        "522.6.204",
        ALL,
        (None, None),
        ("less than 50 mm below the front face", "armoured cable and a steel plate", "Clause 522.6.204"),
    ),
    (
        "wall-zone",
        one_route(BENT, depth=[60, 20, 60], protection=["none", "armoured-cable", "none"]),
        "pass",
        "522.6.204",
        (2,),
        (None, None),
        ("armoured cable",),
    ),
    (
        "wall-zone",
        one_route(BENT, depth=[60, 70, 80]),
        "not-applicable",
        "522.6.202",
        ALL,
        (60, 50),
        ("less than 50 mm below the front face", "the nearest is 60 mm", EXACT),
    ),
    # The strip runs from 1127 to 1273 round 1200: 73 - 5 to spare; the cable's edge is 68 inside.
    ("wall-zone", one_route(UP), "pass", "522.6.202", (1,), (-68, 0), ("On the front face", EXACT)),
    (
        "wall-zone",
        one_route([(1250, 450), (1250, 2330), (1240, 2330)]),
        "pass",
        "522.6.202",
        (1, 2),
        (-18, 0),
        (),
    ),
    # From 1127 down to the wall's end at 300 there is no zone: 827 + 5.
    (
        "wall-zone",
        one_route(BENT, **PARTLY),
        "fail",
        "522.6.202",
        (3,),
        (832, 0),
        (
            "On leg 3 (c to d), from 1,450 to 2,705 mm along the route",
            "the front face",
            "up to 832 mm outside",
            "20 mm below that face",
            "less than 50 mm",
            EXACT,
        ),
    ),
    # Half way between the strip at 1127 and, 450 + 1800 - y up, the top: worked by the second computation.
    (
        "wall-zone",
        one_route(SLANT, **RCD_IS_ENOUGH),
        "pass",
        "522.6.202",
        (1,),
        (538.37, 0),
        ("the front face by up to 538.4 mm", "its RCD of 30 mA is enough", EXACT),
    ),
    (
        "chase-depth",
        one_route(BENT, depth=[20, 50, 2], **BRICK),
        "pass",
        "2C30",
        (1,),
        (13, 100 / 3),
        ("leg 1 (a to b)", "vertical chase 13 mm deep in the front face", "33.3 mm", "Approved Document A"),
    ),
    (
        "chase-depth",
        one_route([(1200, 450), (300, 450)], depth=50, **BRICK),
        "fail",
        "2C30",
        (1,),
        (43, 100 / 6),
        ("horizontal chase 43 mm deep in the front face", "16.7 mm: one sixth of the leaf", "100 mm thick"),
    ),
    (
        "chase-depth",
        one_route(UP, depth=60, **BRICK),
        "fail",
        "2C30",
        (1,),
        (53, 100 / 3),
        ("one third of the leaf",),
    ),
    (
        "chase-depth",
        one_route(UP, depth=10, depth_from="rear", **BRICK),
        "pass",
        "2C30",
        (1,),
        (3, 100 / 3),
        ("in the rear face",),
    ),
    (
        "chase-depth",
        one_route(UP, depth=2, **BRICK),
        "not-applicable",
        "2C30",
        (1,),
        (None, None),
        ("within the plaster or board",),
    ),
    ("chase-depth", one_route(UP), "not-applicable", "", (1,), (None, None), ("timber stud",)),
    (
        "chase-line",
        one_route(UP, **BRICK),
        "pass",
        "2C30",
        (1,),
        (None, None),
        ("leg 1 (a to b) runs upright",),
    ),
    (
        "chase-line",
        one_route([(1200, 450), (300, 450)], **BRICK),
        "pass",
        "2C30",
        (1,),
        (None, None),
        ("runs level",),
    ),
    (
        "chase-line",
        one_route(SLANT, **BRICK),
        "fail",
        "2C30",
        (1,),
        (None, None),
        ("the front face, 13 mm deep",),
    ),
    ("chase-line", one_route(SLANT), "not-applicable", "", (1,), (None, None), ("timber stud",)),
]


def whole(number: int) -> Finding:
    rule, data = ROWS[number][:2]
    return found(judged(data), rule)


@pytest.mark.parametrize("number", range(len(ROWS)))
def test_a_finding_names_clause_legs_numbers_and_words(number: int) -> None:
    rule, _, status, clause, legs, numbers, words = ROWS[number]
    finding = whole(number)
    assert (finding.status, finding.clause, finding.where.legs) == (status, clause, legs)
    assert (finding.measured, finding.limit) == pytest.approx(numbers, abs=0.01)
    assert [word for word in words if word not in finding.text] == []
    assert finding.unit == ("" if finding.limit is None else "mA" if finding.limit == 30 else "mm")
    assert finding.where.face == ("front" if rule == "wall-zone" else finding.where.face)


FACES = {
    "wall-zone": "front",
    "chase-depth": "front",
    "chase-line": "front",
    "wall-rcd": None,
    "metal-wall": None,
}


@pytest.mark.parametrize("rule", FACES)
def test_a_finding_names_its_face_where_it_has_one_and_runs_from_end_to_end(rule: str) -> None:
    finding = found(judged(one_route(UP, **BRICK)), rule)
    assert (finding.where.wall, finding.where.face) == ("W1", FACES[rule])
    assert (finding.where.from_mm, finding.where.to_mm) == (0, 1880)


def test_a_cable_over_the_edge_by_less_than_the_tolerance_is_said_to_lie_at_it() -> None:
    # 1273 less half of 10 is 1268; half a thousandth more is equal, and equal passes (DESIGN 5.12).
    finding = found(judged(one_route([(1268.0005, 450), (1268.0005, 2330)])), "wall-zone")
    assert (finding.status, finding.measured) == ("pass", 0.0)


def test_where_a_pack_gives_a_face_no_zone_the_words_say_so_and_nothing_is_measured() -> None:
    none = UK.model_copy(update={"zones": UK.zones[2:]})
    finding = found(judged(one_route(SLANT, joins=[]), none), "wall-zone")
    assert (finding.status, finding.measured) == ("fail", None)
    assert finding.where.to_mm == pytest.approx(2084.32, abs=0.01)
    assert "this face has no zone at all" in finding.text


def test_a_route_with_no_leg_in_the_wall_is_not_judged_there() -> None:
    above = judged(one_route([(1200, 2400), (2400, 2400)], via="ceiling-void", joins=[], **METAL, **NO_RCD))
    for rule in ("wall-zone", "wall-rcd", "metal-wall"):
        finding = found(above, rule)
        assert (finding.status, finding.where.legs, finding.measured) == ("not-applicable", (), None), rule


def test_marks_run_from_the_first_leg_named_to_the_last() -> None:
    finding = found(judged(one_route(BENT, depth=[60, 20, 60], rcd=None)), "wall-rcd")
    assert (finding.where.legs, finding.where.from_mm, finding.where.to_mm) == ((2,), 550, 1450)


@pytest.mark.parametrize(
    ("points", "depth", "status", "words"),
    [
        ([[400, 200], [1000, 400]], 20, "fail", "leg 1"),
        ([[400, 300], [1000, 300]], 20, "pass", "leg 1"),
        ([[400, 200], [1000, 400]], 80, "not-applicable", "leg 1"),
    ],
)
def test_the_line_of_a_leg_is_judged_where_it_lies_shallow(
    points: Any, depth: float, status: str, words: str
) -> None:
    data = one_route(points, depth=depth, joins=[], accessories=[])
    finding = found(judged({**data, "pack": "de"}, DE), "wall-line")
    assert (finding.status, finding.clause, finding.where.legs) == (status, "DIN 18015-3", (1,))
    assert words in finding.text


def fixed(x: float, penetration: float, **changes: Any) -> Finding:
    one = {
        "id": "F1",
        "wall": "W1",
        "face": "front",
        "x": x,
        "y": 1500,
        "penetration": penetration,
        "diameter": 5,
    }
    case = {"pack": "uk", "walls": [wall(**changes)], "fixings": [one]}
    return judged(case).findings[-1]


# The strip ends at 1273; half of 5 and half of 20 make 12.5 (arithmetic, grade D).
@pytest.mark.parametrize(
    ("x", "penetration", "status", "measured", "words"),
    [
        (1280, 30, "fail", 7, ("7 mm", "12.5 mm", "straight above and below S1", "front face")),
        (1200, 30, "fail", 0, ("0 mm", "12.5 mm")),
        (1300, 30, "pass", 27, ("front face",)),
        (1300, 60, "caution", 27, ("60 mm", "50 mm", "front face")),
    ],
)
def test_a_fixing_tells_how_far_it_is_from_the_nearest_zone_and_which(
    x: float, penetration: float, status: str, measured: float, words: tuple[str, ...]
) -> None:
    finding = fixed(x, penetration)
    assert (finding.status, finding.clause) == (status, "522.6.202")
    assert (finding.where.wall, finding.where.face, finding.subject) == ("W1", "front", "F1")
    assert finding.measured == pytest.approx(measured)
    assert (finding.limit, finding.operator) == (12.5, ">=")
    assert "Fixing F1 on the front face of wall W1" in finding.text
    assert [word for word in words if word not in finding.text] == []


# The wall ends at 3600; the window runs from 2000 to 2400, 1400 to 1700 (arithmetic, grade D).
@pytest.mark.parametrize(
    ("x", "measured", "words"),
    [(3610, 10, ("10 mm", "W1", "front")), (2100, 100, ("window O1", "W1", "100 mm"))],
)
def test_a_fixing_with_no_wall_behind_it_says_where_it_is(
    x: float, measured: float, words: tuple[str, ...]
) -> None:
    window = {"id": "O1", "kind": "window", "x": 2000, "y": 1400, "width": 400, "height": 300}
    finding = fixed(x, 30, openings=[window])
    assert (finding.status, finding.subject, finding.where.wall, finding.where.face) == (
        "fail", "F1", "W1", "front",
    )  # fmt: skip
    assert finding.measured == pytest.approx(measured)
    assert [word for word in words if word not in finding.text] == []
