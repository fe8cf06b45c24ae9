"""Random routes: whatever is offered passes when judged again, and leaves the house as it is."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.coach.share import failures, table
from tests.rules.cases import accessory, made, one_route, opening
from zonelib import Case, judge, load_pack
from zonelib.coach.remedies.offer import remedies
from zonelib.coach.remedies.remedy import Impossible, Remedy

UK = load_pack("uk")
DOOR = opening("D1", 600, 0, 826, 2040, kind="door")
BUILDS = [{"build": "timber-stud", "thickness": 100}, {"build": "masonry", "thickness": 126},
          {"build": "masonry", "thickness": 241}, {"build": "metal-stud", "thickness": 75}]  # fmt: skip

points = st.lists(
    st.tuples(st.integers(-40, 360).map(lambda n: n * 10), st.integers(-5, 245).map(lambda n: n * 10)),
    min_size=1, max_size=4, unique=True,
)  # fmt: skip


@st.composite
def cases(draw: Any) -> Case:
    ahead = [*draw(points), (2200, 450)]
    legs = len(ahead) - 1
    depth = [draw(st.sampled_from([-5, 10, 20, 35, 50, 60])) for _ in range(legs)]
    covering = [
        draw(st.sampled_from(["none", "none", "plastic-conduit", "steel-plate"])) for _ in range(legs)
    ]
    rcd = draw(st.sampled_from([None, {"ma": 30}, {"ma": 100}, {"ma": 30, "at": "outlet"}]))
    data = one_route(
        ahead, accessories=[accessory("S1", 2200, 450, locatable_from_reverse=draw(st.booleans()))],
        openings=draw(st.sampled_from([[], [DOOR]])), depth=depth, protection=covering, rcd=rcd,
        **draw(st.sampled_from(BUILDS)),
    )  # fmt: skip
    return made(data)


@settings(max_examples=30)
@given(cases(), st.booleans())
def test_whatever_is_offered_is_proven(case: Case, existing: bool) -> None:
    before = judge(case, UK).failures
    for finding in before[:3]:
        for one in remedies(case, UK, finding, existing=existing):
            assert one.words
            if not isinstance(one, Impossible):
                check(case, one, finding.rule, existing=existing)


def check(case: Case, remedy: Remedy, rule: str, *, existing: bool) -> None:
    """Hold a remedy to what every remedy promises."""
    before, after = (judge(one, UK).failures for one in (case, remedy.case))
    assert len(after) < len(before)
    counts = {name: sum(one.rule == name for one in before) for name in {one.rule for one in before}}
    assert all(sum(one.rule == name for one in after) <= counts[name] for name in {f.rule for f in after})
    assert sum(one.rule == rule for one in after) < counts[rule]
    assert remedy.case.walls == case.walls
    old, new = case.routes[0], remedy.case.routes[0]
    assert (new.cable, new.joins, new.supply) == (old.cable, old.joins, old.supply)
    slants = {
        (a, b) for a, b in zip(new.points, new.points[1:], strict=False) if a[0] != b[0] and a[1] != b[1]
    }
    assert slants <= set(zip(old.points, old.points[1:], strict=False)), "a new leg on the slant"
    if slants and not existing:
        assert all(
            covering == "none" or covering in old.protection for covering in _coverings(remedy.case, slants)
        )


def _coverings(case: Case, slants: set[Any]) -> list[str]:
    route = case.routes[0]
    ends = zip(route.points, route.points[1:], strict=False)
    return [one for pair, one in zip(ends, route.protection, strict=True) if pair in slants]


def test_nine_in_ten_failures_of_the_banks_typical_answers_have_a_remedy() -> None:
    found = list(failures())
    assert len(found) > 50
    assert sum(bool(one.mended) for one in found) >= 0.9 * len(found)
    assert "share with at least one remedy" in table(found)
