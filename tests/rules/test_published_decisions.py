"""FACTS 1 and 8 whole: how depth, metal, zone, RCD and covering decide together, and every edge beside it."""

from typing import Any

import pytest

from tests.rules.cases import by_rule, found, joist, judged, one_route

IN_ZONE = [(1200, 450), (1200, 2400)]
OUTSIDE = [(1200, 450), (2400, 2100)]
SHALLOW, DEEP = 49.9, 50.0
BUILDS = ["timber-stud", "metal-stud"]
WALL = ("wall-zone", "wall-rcd", "metal-wall")


def passes(points: Any, depth: float, build: str, *, rcd: bool, covered: bool = False) -> bool:
    """Judge a wall of 200 mm: its rear is 50 mm or more from the cable at either depth."""
    changes: dict[str, Any] = {"depth": depth, "build": build, "rcd": {"ma": 30} if rcd else None}
    covering = "armoured-cable" if covered else "none"
    return judged(one_route(points, protection=covering, **changes)).passed


@pytest.mark.outside(*WALL, source="decision table: 522.6.204 at any depth", grade="D")
@pytest.mark.parametrize("points", [IN_ZONE, OUTSIDE])
@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("rcd", [True, False])
@pytest.mark.parametrize("depth", [0.0, SHALLOW, DEEP, 97.0])
def test_a_covering_that_counts_passes_at_any_depth(
    points: Any, depth: float, build: str, *, rcd: bool
) -> None:
    assert passes(points, depth, build, rcd=rcd, covered=True)


@pytest.mark.outside(*WALL, source="decision table: 50 mm or more from both faces", grade="D")
@pytest.mark.parametrize("points", [IN_ZONE, OUTSIDE])
@pytest.mark.parametrize(
    ("build", "rcd", "expected"),
    [("timber-stud", True, True), ("timber-stud", False, True), ("metal-stud", True, True),
     ("metal-stud", False, False)],
)  # fmt: skip
def test_a_deep_cable_needs_an_rcd_only_beside_metal(
    points: Any, build: str, *, rcd: bool, expected: bool
) -> None:
    assert passes(points, DEEP, build, rcd=rcd) is expected


@pytest.mark.outside(*WALL, source="decision table: less than 50 mm", grade="D")
@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize(
    ("points", "rcd", "expected"),
    [(IN_ZONE, True, True), (IN_ZONE, False, False), (OUTSIDE, True, False), (OUTSIDE, False, False)],
)
def test_a_shallow_cable_needs_zone_and_rcd(points: Any, build: str, *, rcd: bool, expected: bool) -> None:
    assert passes(points, SHALLOW, build, rcd=rcd) is expected


@pytest.mark.outside("wall-zone", source="BS 7671 522.6.202, the edge of 50 mm", grade="Q")
@pytest.mark.parametrize("side", ["front", "rear"])
@pytest.mark.parametrize(("depth", "concerned"), [(49.9, True), (50.0, False), (50.1, False)])
def test_exactly_50_from_either_face_is_not_concerned(side: str, depth: float, *, concerned: bool) -> None:
    verdict = judged(one_route(OUTSIDE, depth=depth, depth_from=side))
    status = found(verdict, "wall-zone", face=side).status
    assert status == ("fail" if concerned else "not-applicable")


@pytest.mark.outside("joist-cover", source="BS 7671 522.6.201, the edge of 50 mm", grade="Q")
@pytest.mark.parametrize(("cover", "expected"), [(50.1, "pass"), (50.0, "pass"), (49.9, "fail")])
@pytest.mark.parametrize("from_top", [True, False])
def test_50_of_timber_over_or_under_a_hole(cover: float, expected: str, *, from_top: bool) -> None:
    edge = cover + 10
    verdict = judged(joist(holes=[{"y": 200 - edge if from_top else edge, "diameter": 20}]))
    assert by_rule(verdict)["joist-cover"] == expected


@pytest.mark.outside("wall-zone", "metal-wall", source="BS 7671 522.6.204, extra-low voltage", grade="Q")
@pytest.mark.parametrize(("supply", "passed"), [("selv", True), ("pelv", True), ("lv", False)])
def test_a_safe_low_voltage_may_lie_anywhere(supply: str, *, passed: bool) -> None:
    data = one_route(OUTSIDE, depth=10, build="metal-stud", supply=supply, rcd=None)
    assert judged(data).passed is passed
