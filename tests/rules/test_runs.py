"""Cables along a joist: 522.6.201 (Q) for voids, and what a practitioner says of each place (P, C)."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rules.timber import judged_by, run, the


def cover(pack: str = "uk", **changes: Any) -> str:
    return the(judged_by(pack, run(**changes)), "run-cover").status


# A cable of 10 mm at the side of a joist of 200; 50 mm as over a hole, 522.6.201 (Q; for a run beside the
# timber P). Both sides of the limit, at the top and at the bottom (FACTS 8, D).
@pytest.mark.outside(
    "run-cover", source="BS 7671 522.6.201; for a run beside the timber, published guidance", grade="P"
)
@pytest.mark.parametrize(
    ("changes", "status", "measured"),
    [
        ({"below_top": 50}, "pass", 50),
        ({"below_top": 49.9}, "fail", 49.9),
        ({"below_top": 60}, "pass", 60),
        ({"below_top": 140}, "pass", 50),
        ({"below_top": 140.1}, "fail", 49.9),
        ({"above_bottom": 50}, "pass", 50),
        ({"above_bottom": 49.9}, "fail", 49.9),
        ({"above_bottom": 140}, "pass", 50),
        ({"above_bottom": 140.1}, "fail", 49.9),
        ({"below_top": 20, "void": "ceiling"}, "pass", 170),
        ({"below_top": 20, "void": "floor"}, "fail", 20),
        ({"above_bottom": 20, "void": "floor"}, "pass", 170),
        ({"above_bottom": 20, "void": "ceiling"}, "fail", 20),
    ],
)
def test_the_worst_of_the_nailed_edges_counts(changes: Any, status: str, measured: float) -> None:
    finding = the(judged_by("uk", run(**changes)), "run-cover")
    assert (finding.status, finding.limit, finding.operator) == (status, 50, ">=")
    assert finding.measured == pytest.approx(measured)
    assert finding.clause == "522.6.201"


# NEC 300.4(D) (Q): 32 mm from the nearest edge, along framing.
@pytest.mark.outside("run-cover", source="NEC 300.4(D)", grade="Q", pack="us")
@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"below_top": 32}, "pass"),
        ({"below_top": 31.9}, "fail"),
        ({"above_bottom": 32}, "pass"),
        ({"above_bottom": 31.9}, "fail"),
        ({"below_top": 10, "protection": "steel-plate"}, "pass"),
        ({"below_top": 10, "protection": "armoured-cable"}, "fail"),
        ({"below_top": 10, "supply": "selv"}, "fail"),
    ],
)
def test_in_the_united_states_it_is_32(changes: Any, status: str) -> None:
    finding = the(judged_by("us", run(**changes)), "run-cover")
    assert (finding.status, finding.clause) == (status, "300.4(D)")


@pytest.mark.outside("run-cover", source="BS 7671 522.6.201", grade="D")
def test_a_joist_of_110_leaves_a_cable_of_10_one_place_and_a_lower_one_none() -> None:
    # Two covers of 50 and the cable (D).
    assert cover(joist={"depth": 110}, below_top=50) == "pass"
    assert cover(joist={"depth": 109.9}, below_top=50) == "fail"


# Under boards a nail goes straight in (D). An open edge, or the ceiling between the joists: caution (C).
@pytest.mark.outside("run-cover", source="BS 7671 522.6.201, as the trade applies it", grade="C")
@pytest.mark.parametrize(
    ("place", "void", "status"),
    [
        ("over", "floor", "fail"),
        ("over", "both", "fail"),
        ("over", "ceiling", "caution"),
        ("under", "ceiling", "fail"),
        ("under", "both", "fail"),
        ("under", "floor", "caution"),
        ("on-ceiling", "ceiling", "caution"),
        ("on-ceiling", "both", "caution"),
    ],
)
def test_a_cable_that_is_not_at_the_side(place: str, void: str, status: str) -> None:
    assert cover(place=place, void=void) == status
    assert cover(place=place, void=void, protection="earthed-steel-conduit") == "pass"
    finding = the(judged_by("uk", run(place=place, void=void)), "run-cover")
    assert (finding.measured, finding.limit) == ((0, 50) if status == "fail" else (None, None))


def test_what_is_fixed_to_the_joist_is_taken_as_both_where_it_is_not_said() -> None:
    assert (
        cover(below_top=20) == cover(above_bottom=20) == cover(place="over") == cover(place="under") == "fail"
    )


# 522.6.204 (Q): coverings and low voltage that free a cable; plastic does not (P). An RCD is no option (Q).
@pytest.mark.outside("run-cover", source="BS 7671 522.6.204", grade="Q")
@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"protection": "steel-plate"}, "pass"),
        ({"protection": "armoured-cable"}, "pass"),
        ({"protection": "plastic-conduit"}, "fail"),
        ({"supply": "selv"}, "pass"),
        ({"supply": "pelv"}, "pass"),
    ],
)
def test_what_counts_instead_of_the_distance(changes: Any, status: str) -> None:
    assert cover(below_top=10, **changes) == status


@pytest.mark.outside("run-cover", source="BS 7671 522.6.201", grade="Q")
def test_an_rcd_is_no_option_and_the_words_say_so() -> None:
    for changes in ({"below_top": 10}, {"place": "over"}, {"below_top": -1}):
        assert "An RCD does not replace this." in the(judged_by("uk", run(**changes)), "run-cover").text


def test_conduit_is_measured_by_its_outside() -> None:
    # Plastic conduit of 20 mm (the pack's usual): 200 - 130 - 20 = 50 (D).
    assert cover(below_top=130, protection="plastic-conduit") == "pass"
    assert cover(below_top=130.1, protection="plastic-conduit") == "fail"
    assert cover(below_top=125, protection="plastic-conduit", outer=25) == "pass"
    assert cover(below_top=125.1, protection="plastic-conduit", outer=25) == "fail"


@pytest.mark.outside("run-on-joist", source="arithmetic", grade="D")
@pytest.mark.parametrize(
    ("changes", "status", "measured"),
    [
        ({"below_top": 60}, "pass", 0),
        ({"below_top": 60, "from": 0, "to": 3000}, "pass", 0),
        ({"below_top": 60, "from": -0.1}, "fail", 0.1),
        ({"below_top": 60, "to": 3000.1}, "fail", 0.1),
        ({"below_top": 190, "void": "floor"}, "pass", 0),
        ({"below_top": 190.1, "void": "floor"}, "fail", 0.1),
        ({"above_bottom": -0.1, "void": "floor"}, "fail", 0.1),
        ({"place": "over", "to": 3005}, "fail", 5),
        ({"below_top": 60, "from": 3007}, "fail", 7),
        ({"below_top": 60, "to": -7}, "fail", 7),
    ],
)
def test_a_run_lies_along_its_joist(changes: Any, status: str, measured: float) -> None:
    finding = the(judged_by("uk", run(**changes)), "run-on-joist")
    assert (finding.status, finding.clause) == (status, "")
    assert finding.measured == pytest.approx(measured)


MIRRORED = {"floor": "ceiling", "ceiling": "floor", "over": "under", "under": "over",
            "below_top": "above_bottom", "above_bottom": "below_top"}  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(
    pack=st.sampled_from(["uk", "us"]),
    where=st.sampled_from(["below_top", "above_bottom", "over", "under"]),
    away=st.floats(-20, 220),
    void=st.sampled_from(["both", "floor", "ceiling"]),
    protection=st.sampled_from(["none", "plastic-conduit", "steel-plate"]),
)
def test_a_joist_turned_upside_down_changes_no_status(
    *, pack: str, where: str, away: float, void: str, protection: str
) -> None:
    def statuses(where: str, void: str) -> list[str]:
        place = {"place": where} if where in {"over", "under"} else {where: away}
        findings = judged_by(pack, run(**place, void=void, protection=protection)).findings
        return [one.status for one in findings]

    assert statuses(where, void) == statuses(MIRRORED[where], MIRRORED.get(void, void))


def test_every_finding_names_the_joist_and_the_stretch() -> None:
    findings = judged_by("uk", run(below_top=60, **{"from": 200, "to": 900})).findings
    places = [one.where for one in findings if one.rule.startswith("run-")]
    assert [(one.joist, one.from_mm, one.to_mm) for one in places] == [("J1", 200, 900)] * 2
    whole = the(judged_by("uk", run(below_top=60)), "run-cover").where
    assert (whole.from_mm, whole.to_mm) == (0, 3000)


@pytest.mark.parametrize("pack", ["de", "anz"])
def test_a_pack_that_says_nothing_of_joists_says_that_no_rule_applies(pack: str) -> None:
    finding = the(judged_by(pack, run(below_top=5)), "run-cover")
    assert (finding.status, finding.where.joist) == ("not-applicable", "J1")
    assert "ask for nothing" in finding.text
