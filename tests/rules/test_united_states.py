"""The `us` pack: NEC 300.4 and IRC R502.8.1 (FACTS 7, grade Q), 0.1 mm on each side of every limit."""

from typing import Any

import pytest
from shapely import Point

from tests.rules.cases import by_rule, found, joist, one_route
from tests.rules.timber import judged_by
from zonelib import load_pack
from zonelib.rules.hole_region import hole_region
from zonelib.site.timber import Joist

US = load_pack("us")
INCH = 25.4
FRONT = {"front": {"finish": 13}, "thickness": 200}


def of(rule: str, **changes: Any) -> str:
    return by_rule(judged_by("us", joist(**changes)))[rule]


def size(depth: float, diameter: float) -> str:
    return of("joist-hole-size", depth=depth, holes=[{"y": depth / 2, "diameter": diameter}])


def notch(rule: str, **changes: Any) -> str:
    usual = {"x": 500, "length": 30, "depth": 20}
    return of(rule, notches=[{**usual, **changes}])


# Published worked values (FACTS 7, grade T), inches: depth; largest hole; the next sixteenth above it.
@pytest.mark.outside("joist-hole-size", source="IRC R502.8.1, worked values", grade="T", pack="us")
@pytest.mark.parametrize(
    ("depth", "hole", "next_up"),
    [(7.25, 2.375, 2.4375), (11.25, 3.75, 3.8125), (5.5, 1.8125, 1.875)],
)
def test_worked_holes(depth: float, hole: float, next_up: float) -> None:
    assert size(depth * INCH, hole * INCH) == "pass"
    assert size(depth * INCH, next_up * INCH) == "fail"


# The same (T): 5-1/2 in: notch 7/8 in; the next sixteenth is over a sixth of the depth.
@pytest.mark.outside("joist-notch-depth", source="IRC R502.8.1, worked values", grade="T", pack="us")
@pytest.mark.parametrize(("depth", "status"), [(7 / 8, "pass"), (15 / 16, "fail")])
def test_a_worked_notch(depth: float, status: str) -> None:
    one = {"x": 500, "length": 30, "depth": depth * INCH}
    assert of("joist-notch-depth", depth=5.5 * INCH, notches=[one]) == status


# R502.8.1 (Q), a joist of 240 over 3000: hole 80; notch 40 deep, 60 at an end, 80 long, outside 1000 to 2000.
@pytest.mark.outside("joist-hole-size", source="IRC R502.8.1", grade="Q", pack="us")
@pytest.mark.parametrize(("diameter", "status"), [(80, "pass"), (80.1, "fail")])
def test_a_hole_is_at_most_a_third_of_the_depth(diameter: float, status: str) -> None:
    assert size(240, diameter) == status


@pytest.mark.outside(
    "joist-notch-depth",
    "joist-notch-length",
    "joist-notch-position",
    "joist-notch-edge",
    source="IRC R502.8.1",
    grade="Q",
    pack="us",
)
@pytest.mark.parametrize(
    ("rule", "changes", "status"),
    [
        ("joist-notch-depth", {"depth": 40}, "pass"),
        ("joist-notch-depth", {"depth": 40.1}, "fail"),
        ("joist-notch-depth", {"depth": 60, "x": 15}, "pass"),
        ("joist-notch-depth", {"depth": 60.1, "x": 15}, "fail"),
        ("joist-notch-depth", {"depth": 60, "x": 2985}, "pass"),
        ("joist-notch-depth", {"depth": 60, "x": 15.1}, "fail"),
        ("joist-notch-length", {"length": 80}, "pass"),
        ("joist-notch-length", {"length": 80.1}, "fail"),
        ("joist-notch-position", {"x": 985}, "pass"),
        ("joist-notch-position", {"x": 985.1}, "fail"),
        ("joist-notch-position", {"x": 2015}, "pass"),
        ("joist-notch-position", {"x": 2014.9}, "fail"),
        ("joist-notch-position", {"x": 1500}, "fail"),
        ("joist-notch-position", {"x": 10}, "pass"),
        ("joist-notch-edge", {"edge": "bottom"}, "pass"),
    ],
)
def test_a_notch(rule: str, changes: Any, status: str) -> None:
    usual = {"x": 500, "length": 30, "depth": 20}
    assert of(rule, depth=240, notches=[{**usual, **changes}]) == status


# R502.8.1 (Q): 51 mm from top, bottom, and any other hole or notch, whichever way it lies.
@pytest.mark.outside("joist-hole-edge", source="IRC R502.8.1", grade="Q", pack="us")
@pytest.mark.parametrize(("y", "status"), [(61, "pass"), (60.9, "fail"), (139, "pass"), (139.1, "fail")])
def test_a_hole_keeps_51_from_top_and_bottom_under_a_plate_as_well(y: float, status: str) -> None:
    assert of("joist-hole-edge", holes=[{"y": y, "protection": "steel-plate"}]) == status


@pytest.mark.outside("joist-hole-spacing", source="IRC R502.8.1", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("other", "status"),
    [
        ({"x": 1071, "y": 100}, "pass"),
        ({"x": 1070.9, "y": 100}, "fail"),
        ({"x": 1042.6, "y": 156.8}, "pass"),  # 71 away on the slant: 42.6 and 56.8 (D)
        ({"x": 1042.5, "y": 156.7}, "fail"),
    ],
)
def test_holes_keep_51_from_edge_to_edge(other: Any, status: str) -> None:
    assert of("joist-hole-spacing", holes=[{}, other]) == status


@pytest.mark.outside("joist-notch-gap", source="IRC R502.8.1", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("hole", "status"),
    [
        ({"x": 581, "y": 190}, "pass"),
        ({"x": 580.9, "y": 190}, "fail"),
        ({"x": 500, "y": 119}, "pass"),
        ({"x": 500, "y": 119.1}, "fail"),
    ],
)
def test_a_hole_keeps_51_from_a_notch_beside_it_and_above_it(hole: Any, status: str) -> None:
    assert of("joist-notch-gap", holes=[hole], notches=[{"x": 500, "length": 40, "depth": 20}]) == status


# 300.4(A)(1) (Q): 32 mm of wood over a hole, or a plate; (A)(2) (Q): always a plate at a notch.
@pytest.mark.outside("joist-cover", source="NEC 300.4(A)(1) and (2)", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"holes": [{"y": 42}]}, "pass"),
        ({"holes": [{"y": 41.9}]}, "fail"),
        ({"holes": [{"y": 158.1}]}, "fail"),
        ({"holes": [{"y": 41.9, "protection": "steel-plate"}]}, "pass"),
        ({"notches": [{"protection": "none"}]}, "fail"),
        ({"notches": [{}]}, "pass"),
    ],
)
def test_cover_in_a_joist(changes: Any, status: str) -> None:
    assert of("joist-cover", **changes) == status


@pytest.mark.outside("joist-cover", "stud-cover", source="NEC 300.4(A)(1)", grade="Q", pack="us")
def test_the_plate_is_told_to_be_1_6_mm() -> None:
    plate = US.protections["steel-plate"]
    assert plate.counts
    assert plate.words == "a steel plate of 1.6 mm or more"


@pytest.mark.outside(
    "joist-hole-position", "joist-hole-centre", "joist-kind", source="IRC R502.8.1", grade="Q", pack="us"
)
def test_what_the_code_does_not_limit_is_said_to_have_no_limit() -> None:
    verdict = judged_by("us", joist(depth=600, holes=[{"x": 10, "y": 200}]))
    for rule in ("joist-hole-position", "joist-hole-centre"):
        assert found(verdict, rule).status == "not-applicable"
        assert "IRC states no" in found(verdict, rule).text or "IRC does not" in found(verdict, rule).text
    assert found(verdict, "joist-kind").status == "pass"


def test_what_overlaps_is_told_as_such() -> None:
    cut = {
        "holes": [{}, {"x": 1015}, {"x": 1500, "y": 8}],
        "notches": [{"x": 1025, "length": 40, "depth": 95}],
    }
    texts = [one.text for one in judged_by("us", joist(**cut)).failures]
    starts = (
        "Holes H1 and H2 in joist J1 overlap by 5 mm. They must be 51 mm or more apart",
        "Notch N1 and hole H1 in joist J1 overlap by 2.9 mm. They must be 51 mm or more apart",
        "Hole H3 in joist J1 runs 2 mm past the bottom of the joist. 51 mm or more of timber must be left",
    )
    assert [start for start in starts if not any(text.startswith(start) for text in texts)] == []


@pytest.mark.outside("joist-kind", source="IRC R502.8", grade="M", pack="us")
@pytest.mark.parametrize("kind", ["i-joist", "metal-web", "trussed-rafter", "rafter"])
def test_other_members_are_not_cut_by_rule(kind: str) -> None:
    assert of("joist-kind", kind=kind, holes=[{}]) == "fail"


def test_the_region_for_a_hole_agrees_with_the_rules() -> None:
    notched = {"id": "N", "x": 500, "length": 40, "depth": 20, "edge": "top"}
    taken = {"id": "H", "x": 1500, "y": 100, "diameter": 20}
    member = Joist.model_validate(
        {"id": "J", "kind": "solid", "depth": 200, "width": 38, "span": 3000, "holes": [taken],
         "notches": [notched]}
    )  # fmt: skip
    area = hole_region(member, US, diameter=20).area
    for point, free in (
        ((10, 100), True), ((1000, 61), True), ((1000, 60.9), False), ((1571, 100), True),
        ((1570.9, 100), False), ((500, 119), True), ((500, 119.1), False),
    ):  # fmt: skip
        assert area.buffer(0.01).covers(Point(point)) is free, point
    assert hole_region(member, US, diameter=67).emptied_by == "joist-hole-size"
    # D / 3 keeps 51 to both edges from a depth of 153 on (D).
    low = member.model_copy(update={"depth": 152.9, "holes": (), "notches": ()})
    assert hole_region(low, US, diameter=152.9 / 3).emptied_by == "joist-hole-edge"
    assert hole_region(low.model_copy(update={"depth": 153}), US, diameter=51).emptied_by == ""


# 300.4(D) (Q): 32 mm behind the framing's edge, which lies 13 mm behind the face here (D).
@pytest.mark.outside("wall-edge", source="NEC 300.4(D)", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("changes", "status", "measured"),
    [
        ({"depth": 45}, "pass", 32),
        ({"depth": 44.9}, "fail", 31.9),
        ({"depth": 5}, "fail", -8),
        ({"depth": 45, "depth_from": "rear"}, "pass", 32),
        ({"depth": 44.9, "depth_from": "rear"}, "fail", 31.9),
        ({"depth": 44.9, "front": {"finish": 12.9}}, "pass", 32),
        ({"depth": 20, "protection": "steel-plate"}, "pass", None),
        ({"depth": 20, "protection": "armoured-cable"}, "fail", 7),
        ({"depth": 20, "supply": "selv"}, "fail", 7),
        ({"depth": 20, "build": "masonry"}, "not-applicable", None),
        ({"depth": 20, "build": "metal-stud"}, "fail", 7),
    ],
)
def test_a_cable_in_a_wall_keeps_32_from_the_edges_of_the_framing(
    changes: Any, status: str, measured: float | None
) -> None:
    verdict = judged_by("us", one_route([(1200, 450), (1200, 2000)], **{**FRONT, **changes}))
    finding = found(verdict, "wall-edge")
    assert (finding.status, finding.clause) == (status, "300.4(D)")
    assert finding.measured == (None if measured is None else pytest.approx(measured))


@pytest.mark.outside("wall-edge", source="NEC 300.4(D)", grade="Q", pack="us")
def test_no_zone_and_no_rcd_decide_on_a_wall() -> None:
    slant = one_route([(1200, 450), (2400, 2100)], depth=60, rcd=None, **FRONT)
    verdict = judged_by("us", slant)
    assert verdict.passed
    rules = {one.rule for one in verdict.findings}
    assert not rules & {"wall-zone", "wall-rcd", "metal-wall", "wall-line"}
    rcd = judged_by("us", one_route([(1200, 450), (2400, 2100)], depth=20, rcd={"ma": 5}, **FRONT))
    assert not rcd.passed


def test_each_leg_is_judged_for_itself() -> None:
    points = [(1200, 450), (1200, 2000), (300, 2000)]
    verdict = judged_by("us", one_route(points, depth=[20, 60], **FRONT))
    found_at = {one.where.legs: one.status for one in verdict.findings if one.rule == "wall-edge"}
    assert found_at == {(1,): "fail", (2,): "pass"}
