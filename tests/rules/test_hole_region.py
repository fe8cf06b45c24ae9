"""Where a hole may be drilled agrees with the verdict on a hole drilled there."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point

from zonelib import Case, Pack, judge, load_pack
from zonelib.rules.hole_region import hole_region
from zonelib.site.timber import Hole, Joist, Notch

UK, US = load_pack("uk"), load_pack("us")


def joist(**changes: object) -> Joist:
    return Joist.model_validate(
        {"id": "J1", "kind": "solid", "depth": 200, "width": 47, "span": 3000, **changes}
    )


# FACTS 2: a centred hole keeps 50 mm only if it is
# no larger than depth - 100; a quarter of the depth governs from 133.3 mm upwards.
@pytest.mark.outside("joist-cover", "joist-hole-size", source="arithmetic on both limits", grade="D")
@pytest.mark.parametrize(
    ("depth", "diameter", "emptied_by"),
    [
        (100, 1, "joist-cover"),
        (125, 25, ""),
        (125, 25.1, "joist-cover"),
        (150, 37.5, ""),
        (150, 37.6, "joist-hole-size"),
        (250, 62.5, ""),
        (251, 20, "joist-kind"),
    ],
)
def test_the_rule_that_leaves_no_place_is_named(depth: float, diameter: float, emptied_by: str) -> None:
    assert hole_region(joist(depth=depth), UK, diameter=diameter).emptied_by == emptied_by


@pytest.mark.outside("joist-hole-position", source="LABC table of spans", grade="T")
def test_a_hole_lies_at_a_quarter_to_two_fifths_of_the_span_from_either_support() -> None:
    # Span 3000: holes 750 to 1200, and the same from the other support.
    pieces = shapely.get_parts(hole_region(joist(), UK, diameter=20).area)
    assert [piece.bounds[::2] for piece in pieces] == [(750, 1200), (1800, 2250)]


def test_a_covering_that_counts_frees_the_hole_from_the_cover() -> None:
    assert hole_region(joist(depth=110), UK, diameter=20, covered=True).emptied_by == ""


def test_a_member_that_may_not_be_cut_has_no_place_for_a_hole() -> None:
    assert hole_region(joist(kind="i-joist"), UK, diameter=20).emptied_by == "joist-kind"


@pytest.mark.parametrize("pack", [UK, US], ids=lambda pack: str(pack.id))
@settings(max_examples=60, deadline=None)
@given(
    x=st.one_of(st.floats(0, 3000), st.floats(600, 900)),
    y=st.floats(50, 150),
    diameter=st.floats(5, 60),
    taken=st.floats(700, 2300),
    notch=st.floats(200, 800),
)
def test_a_hole_passes_exactly_where_the_region_says(
    pack: Pack, *, x: float, y: float, diameter: float, taken: float, notch: float
) -> None:
    cut: dict[str, list[Hole | Notch]] = {
        "holes": [Hole(id="H0", x=taken, y=100, diameter=20)],
        "notches": [Notch(id="N0", x=notch, length=20, depth=10, edge="top", protection="steel-plate")],
    }
    region = hole_region(joist(**cut), pack, diameter=diameter)
    edge = region.area.boundary.distance(Point(x, y)) if not region.emptied_by else 1.0
    drilled = joist(**{**cut, "holes": [*cut["holes"], Hole(id="H1", x=x, y=y, diameter=diameter)]})
    verdict = judge(Case(pack=pack.id, joists=(drilled,)), pack)
    own = {"joist-cover", "joist-kind", "joist-hole-size", "joist-hole-position", "joist-hole-centre"}
    own |= {"joist-hole-edge"}
    failed = [
        one
        for one in verdict.failures
        if (one.rule in own and one.subject == "H1") or one.where.other == "H1"
    ]
    if edge > 0.02:  # nearer than that the tolerance decides, and the chords of an arc
        assert region.area.contains(Point(x, y)) == (not failed)
