"""What a finding on a joist promises beside its verdict: clause, place, numbers and words, worked by hand."""

from typing import Any

import pytest

from tests.rules.cases import Data, joist, judged
from zonelib import Finding

COVER, CUT = "522.6.201", ""
SMALL = {"x": 1000, "y": 100, "diameter": 20}
Row = tuple[Data, str, tuple[Any, ...], tuple[str, ...]]


def hole(**changes: Any) -> Data:
    return {**SMALL, **changes}


def notch(**changes: Any) -> Data:
    return {"x": 500, "length": 40, "depth": 20, "edge": "top", "protection": "none", **changes}


# A joist 200 mm deep over 3000 mm: holes up to 50 mm, 750 to 1200 mm from a support, within 2 mm of the
# centre line, three diameters apart; notches up to 25 mm deep, 210 to 750 mm from a support, at the top.
# What is cut; the rule; status, subject, other, measured, limit, operator; words of the text.
ROWS: list[Row] = [
    (joist(holes=[hole(y=140)]), "joist-cover", ("pass", "H1", None, 50, 50, ">="), ("H1", "J1", "50 mm")),
    (joist(holes=[hole(y=140.1)]), "joist-cover", ("fail", "H1", None, 49.9, 50, ">="), ("49.9", "top")),
    (joist(holes=[hole(y=59.9)]), "joist-cover", ("fail", "H1", None, 49.9, 50, ">="), ("49.9", "bottom")),
    (joist(holes=[hole(y=190, protection="steel-plate")]), "joist-cover",
     ("pass", "H1", None, None, None, "<="), ("steel plate",)),
    (joist(notches=[notch()]), "joist-cover", ("fail", "N1", None, 0, 50, ">="), ("N1", "top")),
    (joist(notches=[notch(edge="bottom")]), "joist-cover", ("fail", "N1", None, 0, 50, ">="), ("bottom",)),
    (joist(notches=[notch(protection="steel-plate")]), "joist-cover",
     ("pass", "N1", None, None, None, "<="), ("steel plate",)),
    (joist(), "joist-kind",
     ("not-applicable", "J1", None, None, None, "<="), ("Nothing is cut in joist J1",)),
    (joist(holes=[hole()]), "joist-kind", ("pass", "J1", None, 200, 250, "<="), ("250",)),
    (joist(holes=[hole()], depth=250.1), "joist-kind", ("fail", "J1", None, 250.1, 250, "<="),
     ("250.1", "250 mm", "engineer")),
    (joist(holes=[hole()], kind="i-joist"), "joist-kind",
     ("fail", "J1", None, None, None, "<="), ("J1", "maker")),
    (joist(holes=[hole(diameter=50)]), "joist-hole-size", ("pass", "H1", None, 50, 50, "<="), ("50 mm",)),
    (joist(holes=[hole(diameter=50.1)]), "joist-hole-size", ("fail", "H1", None, 50.1, 50, "<="),
     ("50.1", "200 mm deep")),
    (joist(holes=[hole(x=750)]), "joist-hole-position",
     ("pass", "H1", None, 750, 750, ">="), ("750", "1,200")),
    (joist(holes=[hole(x=749.9)]), "joist-hole-position", ("fail", "H1", None, 749.9, 750, ">="),
     ("749.9", "750 to 1,200 mm")),
    (joist(holes=[hole(x=1200.1)]), "joist-hole-position", ("fail", "H1", None, 1200.1, 1200, "<="),
     ("1,200.1", "Near the middle")),
    (joist(holes=[hole(x=2250)]), "joist-hole-position",
     ("pass", "H1", None, 750, 750, ">="), ("nearest support",)),
    (joist(holes=[hole(y=102)]), "joist-hole-centre", ("pass", "H1", None, 2, 2, "<="), ("H1",)),
    (joist(holes=[hole(y=97.9)]), "joist-hole-centre", ("fail", "H1", None, 2.1, 2, "<="), ("2.1",)),
    (joist(holes=[hole(), hole(x=1060)]), "joist-hole-spacing",
     ("pass", "H1", "H2", 60, 60, ">="), ("H1", "H2")),
    (joist(holes=[hole(), hole(x=1059.9)]), "joist-hole-spacing", ("fail", "H1", "H2", 59.9, 60, ">="),
     ("59.9", "60", "3 times")),
    (joist(holes=[hole(x=1060), hole(diameter=10)]), "joist-hole-spacing",
     ("pass", "H1", "H2", 60, 60, ">="), ()),
    (joist(notches=[notch(depth=25)]), "joist-notch-depth", ("pass", "N1", None, 25, 25, "<="), ("25",)),
    (joist(notches=[notch(depth=25.1)]), "joist-notch-depth", ("fail", "N1", None, 25.1, 25, "<="),
     ("25.1", "200 mm deep")),
    (joist(notches=[notch(x=230)]), "joist-notch-position",
     ("pass", "N1", None, 210, 210, ">="), ("210", "750")),
    (joist(notches=[notch(x=229.9)]), "joist-notch-position", ("fail", "N1", None, 209.9, 210, ">="),
     ("209.9", "210 to 750 mm")),
    (joist(notches=[notch(x=730.1)]), "joist-notch-position",
     ("fail", "N1", None, 750.1, 750, "<="), ("750.1",)),
    (joist(notches=[notch(x=2770)]), "joist-notch-position", ("pass", "N1", None, 210, 210, ">="), ()),
    (joist(notches=[notch()]), "joist-notch-edge", ("pass", "N1", None, None, None, "<="), ("top",)),
    (joist(notches=[notch(edge="bottom")]), "joist-notch-edge", ("fail", "N1", None, None, None, "<="),
     ("bottom", "top")),
    (joist(holes=[hole(x=750)], notches=[notch(x=620)]), "joist-notch-gap",
     ("pass", "N1", "H1", 100, 100, ">="),
     ("N1", "H1", "100")),
    (joist(holes=[hole(x=750)], notches=[notch(x=620.1)]), "joist-notch-gap",
     ("fail", "N1", "H1", 99.9, 100, ">="), ("99.9", "100")),
    (joist(holes=[hole(x=750)], notches=[notch(x=725)]), "joist-notch-gap",
     ("fail", "N1", "H1", -5, 100, ">="), ("overlap by 5 mm", "100")),
]  # fmt: skip


def named(finding: Finding) -> str:
    where = finding.where
    assert (where.joist, where.wall, where.legs) == ("J1", None, ())
    return f"{finding.rule} {finding.subject}"


@pytest.mark.parametrize(("data", "rule", "told", "words"), ROWS)
def test_a_finding_on_a_joist_is_told_in_full(
    data: Data, rule: str, told: tuple[Any, ...], words: tuple[str, ...]
) -> None:
    (found,) = (one for one in judged(data).findings if one.rule == rule)
    assert named(found) == f"{rule} {told[1]}"
    measured = None if found.measured is None else round(found.measured, 6)
    limit = None if found.limit is None else round(found.limit, 6)
    assert (found.status, found.subject, found.where.other, measured, limit, found.operator) == told
    assert found.unit == ("" if found.limit is None else "mm")
    assert (found.clause == COVER) == (rule == "joist-cover")
    for one in words:
        assert one in found.text, found.text


def test_what_is_cut_where_nothing_may_be_is_left_to_who_decides() -> None:
    """Every structure rule is told of every cut and pair, as not judged; the cover is judged all the same."""
    data = joist(kind="trussed-rafter", holes=[hole(), hole(x=1100)], notches=[notch()])
    found = judged(data).findings
    assert {(one.rule, one.subject, one.where.other) for one in found if one.status == "not-applicable"} == {
        *((rule, name, None) for rule in ("joist-hole-size", "joist-hole-position", "joist-hole-centre")
          for name in ("H1", "H2")),
        *((rule, "N1", None) for rule in ("joist-notch-depth", "joist-notch-position", "joist-notch-edge")),
        ("joist-hole-spacing", "H1", "H2"), ("joist-notch-gap", "N1", "H1"), ("joist-notch-gap", "N1", "H2"),
    }  # fmt: skip
    assert [one.status for one in found if one.rule == "joist-cover"] == ["pass", "pass", "fail"]
    assert all("J1" in one.text for one in found)
