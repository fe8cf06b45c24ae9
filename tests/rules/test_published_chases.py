"""FACTS 3: chases in masonry, one third and one sixth of the leaf (Approved Document A, 2C30: P)."""

from typing import Any

import pytest

from tests.rules.cases import by_rule, found, judged, one_route
from tests.rules.outside import stated

CHASES = ("chase-depth", "chase-line")

UP = [(1200, 450), (1200, 2400)]
LEVEL = [(1200, 450), (3600, 450)]
SLANT = [(1200, 450), (2400, 2100)]


def chase(points: Any, thick: float, cut: float, **changes: Any) -> dict[str, Any]:
    """Return a case whose cable of 6 mm needs a chase of this depth in a leaf of this thickness [mm]."""
    usual = {"thickness": thick + 26, "build": "masonry", "depth": cut + 13 - 6}
    return one_route(points, **{**usual, **changes})


# Each row says in words what is cut, where, in which leaf [mm], how deep [mm], the two verdicts, the source.
ROWS = [
    ("a third upright", UP, 100, 33.3, "pass", "pass", "Approved Document A, 2C30 P"),
    ("over a third", UP, 100, 33.4, "fail", "pass", "Approved Document A, 2C30 P"),
    ("a sixth level", LEVEL, 100, 16.6, "pass", "pass", "Approved Document A, 2C30 P"),
    ("over a sixth", LEVEL, 100, 16.7, "fail", "pass", "Approved Document A, 2C30 P"),
    ("100 leaf, 33 upright", UP, 100, 33, "pass", "pass", "trade press T"),
    ("100 leaf, 34 upright is over", UP, 100, 34, "fail", "pass", "trade press T"),
    ("102.5 leaf, 34 upright", UP, 102.5, 34, "pass", "pass", "trade press T"),
    ("102.5 leaf, 35 upright", UP, 102.5, 35, "fail", "pass", "trade press T"),
    ("100 leaf, 16 level", LEVEL, 100, 16, "pass", "pass", "trade press T"),
    ("102.5 leaf, 17 level", LEVEL, 102.5, 17, "pass", "pass", "trade press T"),
    ("102.5 leaf, 17.1 level", LEVEL, 102.5, 17.1, "fail", "pass", "trade press T"),
    ("50 upright in a leaf of 150", UP, 150, 50, "pass", "pass", "D"),
    ("50 upright in a leaf of 149.9", UP, 149.9, 50, "fail", "pass", "D"),
    ("exactly a third, as floating point sees it", UP, 90.3, 30.1, "pass", "pass", "D"),
    ("on the slant", SLANT, 100, 10, "not-applicable", "fail", "C"),
    ("all in the plaster", SLANT, 100, 0, "not-applicable", "not-applicable", "plaster not counted C"),
    ("0.1 beyond the plaster", SLANT, 100, 0.1, "not-applicable", "fail", "plaster not counted C"),
]


@pytest.mark.parametrize(
    ("points", "leaf", "cut", "depth", "line"),
    [pytest.param(*row[1:6], id=f"{row[0]} [{row[6]}]", marks=stated(row[6], *CHASES)) for row in ROWS],
)
def test_a_published_chase(points: Any, leaf: float, cut: float, depth: str, line: str) -> None:
    verdict = judged(chase(points, leaf, cut))
    assert by_rule(verdict)["chase-depth"] == depth
    assert by_rule(verdict)["chase-line"] == line
    if depth != "not-applicable":
        finding = found(verdict, "chase-depth")
        assert finding.measured == pytest.approx(cut)
        assert finding.limit == pytest.approx(leaf / (6 if points is LEVEL else 3))


@pytest.mark.outside("chase-depth", "wall-zone", source="arithmetic from 2C30", grade="D")
def test_the_deepest_upright_chase_in_a_100_leaf_still_needs_a_zone() -> None:
    # FACTS 3: 13 of plaster and a third of the leaf make 46.3 from surface to back, under 50.
    data = chase(SLANT, 100, 100 / 3, depth=13 + 100 / 3 - 6)
    assert data["routes"][0]["depth"] + 6 == pytest.approx(46.3, abs=0.05)
    assert by_rule(judged(data))["wall-zone"] == "fail"
    assert by_rule(judged(chase(UP, 100, 100 / 3)))["chase-depth"] == "pass"


@pytest.mark.outside(*CHASES, source="Approved Document A, 2C30: it is about masonry", grade="P")
@pytest.mark.parametrize("build", ["timber-stud", "metal-stud"])
def test_only_masonry_is_chased(build: str) -> None:
    assert by_rule(judged(chase(SLANT, 100, 60, build=build)))["chase-depth"] == "not-applicable"


def test_covering_and_supply_make_no_chase_shallower() -> None:
    # DESIGN 5.9: whatever the protection or supply; a conduit of 20 takes more of the leaf than the cable.
    assert by_rule(judged(chase(UP, 100, 33.4, supply="selv")))["chase-depth"] == "fail"
    conduit = judged(chase(UP, 100, 20, protection="earthed-steel-conduit"))
    assert found(conduit, "chase-depth").measured == pytest.approx(34)


@pytest.mark.outside("chase-depth", source="Approved Document A, 2C30", grade="P")
def test_the_leaf_of_a_cavity_wall_is_what_counts() -> None:
    assert by_rule(judged(chase(UP, 100, 30, thickness=300, leaf=90)))["chase-depth"] == "pass"
    assert by_rule(judged(chase(UP, 100, 30.1, thickness=300, leaf=90)))["chase-depth"] == "fail"


def test_a_chase_is_cut_from_the_nearer_face() -> None:
    rear = judged(chase(UP, 100, 20, depth_from="rear"))
    assert found(rear, "chase-depth").where.face == "rear"
    middle = judged(chase(UP, 100, 53, front={"finish": 13}, rear={"finish": 3}, thickness=126, depth=60))
    assert (found(middle, "chase-depth").where.face, found(middle, "chase-depth").measured) == ("rear", 63)
