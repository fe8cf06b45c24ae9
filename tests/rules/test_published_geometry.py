"""What any route must do, worked by hand on paper: reach, stay on the wall, fit into it (grade D)."""

from typing import Any

import pytest

from tests.rules.cases import found, judged, one_route, opening

BY_HAND = "worked by hand: plain geometry, no clause"
DOOR = [opening("D1", 2000, 0, 800, 2000, kind="door")]


@pytest.mark.outside("route-joins", source=BY_HAND, grade="D")
@pytest.mark.parametrize(
    ("end", "status", "gap"),
    [
        ((1200, 450), "pass", 0),
        ((1273, 493), "pass", 0),  # the plate's upper right corner
        ((1274, 493), "fail", 1),
        ((1276, 497), "fail", 5),  # 3 to the right and 4 above: 5 away
        ((1200, 406), "fail", 1),
    ],
)
def test_a_route_arrives_at_the_edge_of_what_it_joins(end: Any, status: str, gap: float) -> None:
    away = (end[0], 0) if end[1] < 450 else (end[0], 2400)
    finding = found(judged(one_route([end, away])), "route-joins")
    assert finding.status == status
    assert finding.measured == pytest.approx(gap, abs=0.01)


@pytest.mark.outside("route-on-wall", source=BY_HAND, grade="D")
@pytest.mark.parametrize(
    ("points", "status", "off"),
    [
        ([(0, 0), (0, 2400)], "pass", 0),
        ([(-0.1, 0), (-0.1, 2400)], "fail", 2400),
        ([(100, 2300), (100, 2500)], "fail", 100),
        ([(3600, 100), (3630, 140)], "fail", 50),
        ([(1900, 1000), (2900, 1000)], "fail", 800),
        ([(2000, 0), (2000, 2000)], "pass", 0),
        ([(1900, 2000), (2900, 2000)], "pass", 0),
    ],
)
def test_a_route_stays_on_its_wall_and_out_of_openings(points: Any, status: str, off: float) -> None:
    finding = found(judged(one_route(points, openings=DOOR, joins=[])), "route-on-wall")
    assert finding.status == status
    assert finding.measured == pytest.approx(off, abs=0.01)


@pytest.mark.outside("route-in-void", source=BY_HAND, grade="D")
@pytest.mark.parametrize(
    ("void", "edge", "turn", "status", "off"),
    [
        ("ceiling-void", 2400, 2400, "pass", 0),
        ("ceiling-void", 2400, 2399, "fail", 1),
        ("ceiling-void", 2400, 450, "fail", 1950),
        ("floor-void", 0, 0, "pass", 0),
        ("floor-void", 0, 0.1, "fail", 0.1),
    ],
)
def test_a_route_enters_a_void_at_the_edge_of_the_wall(
    void: str, edge: float, turn: float, status: str, off: float
) -> None:
    points = [(1200, 450), (1200, turn), (2400, edge)]
    finding = found(judged(one_route(points, via=["wall", void])), "route-in-void")
    assert finding.status == status
    assert finding.measured == pytest.approx(off, abs=0.01)


@pytest.mark.outside("depth-in-wall", source=BY_HAND, grade="D")
@pytest.mark.parametrize(
    ("depth", "changes", "status"),
    [
        (0, {}, "pass"),
        (-0.1, {}, "fail"),
        (94, {}, "pass"),
        (94.1, {}, "fail"),  # 94.1 and a cable of 6 are 0.1 more than the wall
        (80, {"protection": "plastic-conduit"}, "pass"),  # a conduit is 20 across
        (80.1, {"protection": "plastic-conduit"}, "fail"),
        (0, {"depth_from": "rear"}, "pass"),
        (94.1, {"depth_from": "rear"}, "fail"),
    ],
)
def test_cable_or_conduit_fits_into_a_wall_of_100(depth: float, changes: dict[str, Any], status: str) -> None:
    data = one_route([(1200, 450), (1200, 2400)], thickness=100, depth=depth, **changes)
    assert found(judged(data), "depth-in-wall").status == status
