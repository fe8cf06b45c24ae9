"""Studs: NEC 300.4(A) and IRC R602.6 (FACTS 7, grade Q), 0.1 mm on each side of every limit."""

from typing import Any

import pytest

from tests.rules.cases import by_rule, found
from tests.rules.timber import judged_by, stud, the


def of(rule: str, pack: str = "us", **changes: Any) -> str:
    return by_rule(judged_by(pack, stud(**changes)))[rule]


# 300.4(A)(1) (Q): 32 mm from the nearest edge, or a plate; (A)(2) (Q): a notch always has one.
@pytest.mark.outside("stud-cover", source="NEC 300.4(A)(1)", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("hole", "status"),
    [
        ({"x": 42}, "pass"),
        ({"x": 41.9}, "fail"),
        ({"x": 98}, "pass"),
        ({"x": 98.1}, "fail"),
        ({"x": 41.9, "protection": "steel-plate"}, "pass"),
        ({"x": 41.9, "protection": "plastic-conduit"}, "fail"),
    ],
)
def test_a_hole_keeps_32_from_the_nearest_edge_or_has_a_plate(hole: Any, status: str) -> None:
    assert of("stud-cover", holes=[hole]) == status


@pytest.mark.outside("stud-cover", source="NEC 300.4(A)(2)", grade="Q", pack="us")
@pytest.mark.parametrize(("protection", "status"), [("none", "fail"), ("steel-plate", "pass")])
def test_a_notch_always_has_a_plate(protection: str, status: str) -> None:
    assert of("stud-cover", notches=[{"depth": 1, "protection": protection}]) == status


# R602.6 (Q): of a stud 140 deep, bearing: hole 56, notch 35; not bearing: hole 84, notch 56 (D).
@pytest.mark.outside("stud-hole-size", "stud-notch-depth", source="IRC R602.6", grade="Q", pack="us")
@pytest.mark.parametrize(("bearing", "hole", "notch"), [(True, 56, 35), (False, 84, 56), (None, 56, 35)])
def test_the_shares_of_a_stud(bearing: bool | None, hole: float, notch: float) -> None:
    def size(diameter: float) -> str:
        return of("stud-hole-size", bearing=bearing, holes=[{"diameter": diameter}])

    def deep(depth: float) -> str:
        return of("stud-notch-depth", bearing=bearing, notches=[{"depth": depth}])

    assert (size(hole), size(hole + 0.1)) == ("pass", "fail")
    assert (deep(notch), deep(notch + 0.1)) == ("pass", "fail")


def test_a_stud_of_which_nothing_is_known_is_said_to_be_taken_as_bearing() -> None:
    finding = the(judged_by("us", stud(bearing=None, holes=[{"diameter": 60}])), "stud-hole-size")
    assert "taken as bearing" in finding.text


# R602.6 (Q): 16 mm to the edge; a plate does not let a hole off.
@pytest.mark.outside("stud-hole-edge", source="IRC R602.6", grade="Q", pack="us")
@pytest.mark.parametrize(("x", "status"), [(26, "pass"), (25.9, "fail"), (114, "pass"), (114.1, "fail")])
def test_a_hole_keeps_16_to_the_edge_under_a_plate_as_well(x: float, status: str) -> None:
    assert of("stud-hole-edge", holes=[{"x": x, "protection": "steel-plate"}]) == status


# R602.6 (M): no section holds a hole and a notch.
@pytest.mark.outside("stud-notch-gap", source="IRC R602.6", grade="M", pack="us")
@pytest.mark.parametrize(("y", "status"), [(630, "pass"), (629.9, "fail"), (570, "pass"), (600, "fail")])
def test_no_section_holds_a_hole_and_a_notch(y: float, status: str) -> None:
    assert of("stud-notch-gap", holes=[{"y": y}], notches=[{}]) == status


@pytest.mark.outside(
    "stud-cover", "stud-hole-size", source="NEC 300.4(A)(1) and IRC R602.6", grade="D", pack="us"
)
@pytest.mark.parametrize(
    ("depth", "bearing", "largest"),
    # The smallest stud whose hole of 40 % still keeps 32 to both edges: 0.4 d = d - 64 (D).
    [(64 / 0.6, True, 0.4 * 64 / 0.6), (89, True, 25)],
)
def test_cover_and_size_together(depth: float, bearing: bool, largest: float) -> None:
    hole = {"x": depth / 2, "diameter": largest}
    assert of("stud-cover", depth=depth, bearing=bearing, holes=[hole]) == "pass"
    assert (
        of("stud-cover", depth=depth, bearing=bearing, holes=[{**hole, "diameter": largest + 0.1}]) == "fail"
    )


def test_every_finding_about_a_stud_names_it_and_its_clause() -> None:
    verdict = judged_by("us", stud(holes=[{}], notches=[{}]))
    assert {one.where.stud for one in verdict.findings} == {"ST1"}
    assert found(verdict, "stud-cover").clause == "300.4(A)(1)"
    assert {one.clause for one in verdict.findings if one.rule != "stud-cover"} == {"R602.6"}
    assert found(verdict, "stud-notch-gap").where.other == "H1"
    assert verdict.findings[0].as_data()["where"] == {"stud": "ST1"}


@pytest.mark.parametrize(
    ("changes", "rules"),
    [
        ({"holes": [{}]}, ["stud-cover", "stud-hole-size", "stud-hole-edge"]),
        ({"notches": [{}]}, ["stud-cover", "stud-notch-depth"]),
    ],
)
def test_each_cut_is_judged_by_the_rules_for_its_kind(changes: Any, rules: list[str]) -> None:
    assert [one.rule for one in judged_by("us", stud(**changes)).findings] == rules


@pytest.mark.parametrize(
    ("y", "said"), [(625, "overlap by 5 mm along the stud."), (635, "are 5 mm apart along the stud, 0 mm or")]
)
def test_an_overlap_is_told_as_one(y: float, said: str) -> None:
    text = the(judged_by("us", stud(holes=[{"y": y}], notches=[{}])), "stud-notch-gap").text
    assert text.startswith(f"Notch N1 and hole H1 in stud ST1 {said}")


def test_a_hole_that_runs_out_of_the_stud_is_told_as_one() -> None:
    text = the(judged_by("us", stud(holes=[{"x": 8}])), "stud-cover").text
    assert text.startswith("Hole H1 in stud ST1 runs 2 mm past the front edge of the stud.")


def test_nothing_cut_is_said() -> None:
    assert the(judged_by("us", stud()), "stud-cover").reason == "nothing is cut"


@pytest.mark.outside("stud-cover", source="BS 7671 522.6.201", grade="Q")
def test_in_the_uk_a_stud_falls_under_the_rules_for_walls() -> None:
    # 522.6.201 (Q) speaks of joists and battens in floors and ceilings; 522.6.202 (Q) of walls.
    finding = the(judged_by("uk", stud(holes=[{"x": 10}])), "stud-cover")
    assert (finding.status, finding.subject, finding.clause) == ("not-applicable", "ST1", "522.6.201")
    assert "floors and ceilings" in finding.text
    assert "rules for walls decide" in finding.text


@pytest.mark.parametrize("pack", ["de", "anz"])
def test_a_pack_that_says_nothing_of_studs_says_why_nothing_applies(pack: str) -> None:
    finding = the(judged_by(pack, stud(holes=[{"x": 10}])), "stud-cover")
    assert (finding.status, finding.clause) == ("not-applicable", "")
    assert "rules for walls decide" in finding.text
