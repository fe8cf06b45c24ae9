"""Each kind of remedy by hand, with its numbers; each shown one is judged again."""

from typing import Any

import pytest

from tests.rules.cases import Data, accessory, joist, made, one_route, opening
from tests.rules.rooms import case_of, own, room, round_room
from tests.rules.timber import run, stud
from zonelib import Case, judge, load_pack
from zonelib.coach.remedies.offer import MAKERS, remedies
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.rules.words import templates

UK = load_pack("uk")
MASONRY = {"thickness": 126, "build": "masonry"}


def advised(data: Data, rule: str, *, pack: str = "uk", existing: bool = False) -> dict[str, Advice]:
    """Return by kind what is offered for the first failure of a rule; each is judged again here."""
    rules = load_pack(pack)
    case = made({**data, "pack": pack}, rules)
    failures = judge(case, rules).failures
    finding = next(one for one in failures if one.rule == rule)
    offered = remedies(case, rules, finding, existing=existing)
    for one in offered:
        if isinstance(one, Remedy):
            assert len(judge(one.case, rules).failures) < len(failures)
            assert one.words
            assert one.cost
    assert len({one.kind for one in offered}) == len(offered)
    return {one.kind: one for one in offered}


def mended(advice: dict[str, Advice], kind: str) -> Case:
    one = advice[kind]
    assert isinstance(one, Remedy)
    return one.case


def refused(advice: dict[str, Advice], kind: str) -> str:
    one = advice[kind]
    assert isinstance(one, Impossible)
    return one.words


UNDER = [(300, 2400), (300, 2150), (1200, 2150), (1200, 450)]
"""Along 250 mm below the ceiling: 100 mm too low."""


def test_a_leg_moves_up_into_the_band_at_the_top() -> None:
    """By hand: the band begins at 2250, half the 10 mm cable more is 2255; in steps of 5 that is it."""
    advice = advised(one_route(UNDER), "wall-zone")
    assert mended(advice, "move-leg").routes[0].points[1:3] == ((300, 2255), (1200, 2255))
    assert "up by 105 mm, to 2,255 mm above the floor" in advice["move-leg"].words
    assert "within 150 mm of the top" in advice["move-leg"].words


def test_a_leg_beside_its_socket_moves_into_the_strip() -> None:
    """By hand: the strip of a 146 mm socket ends at 1273, half a cable less is 1268, in steps of 5: 1265."""
    points = [(1265, 2400), (1265, 2300), (1300, 2300), (1300, 450), (1200, 450)]
    advice = advised(one_route(points), "wall-zone")
    assert "left by 35 mm, to 1,265 mm from the left end" in advice["move-leg"].words


def test_a_slanting_leg_is_led_level_and_upright() -> None:
    """By hand: up the strip and along the top, 1880 + 900 mm instead of 2084."""
    advice = advised(one_route([(1200, 450), (300, 2330)]), "wall-zone")
    points = list(mended(advice, "another-way").routes[0].points)
    assert points == [(1200, 450), (1200, 2330), (300, 2330)]
    assert advice["another-way"].as_data()["cost"] == "It takes 696 mm more cable."
    assert "no covering is put on leg 1" in refused(advice, "choose-covering")


def test_a_run_that_exists_may_be_covered_on_its_slant() -> None:
    advice = advised(one_route([(1200, 450), (300, 2330)]), "wall-zone", existing=True)
    assert mended(advice, "choose-covering").routes[0].protection == ("steel-plate",)


def test_in_a_room_a_leg_moves_up_past_its_corners() -> None:
    """By hand: as on one wall, 2255; the leg runs over three walls."""
    walls = [own(1, accessory("S1", 1500, 450)), own(3, accessory("S2", 1500, 450))]
    points = [(1500, 450), (1500, 2150), (8500, 2150), (8500, 450)]
    data = case_of(room(walls=walls), routes=[round_room(points, joins=["S1", "S2"])])
    advice = advised(data, "wall-zone")
    assert list(mended(advice, "move-leg").routes[0].points[1:3]) == [(1500, 2255), (8500, 2255)]


def test_only_what_fails_is_led_another_way() -> None:
    """The last leg, which ends in the strip, stays as it is."""
    points = [(1200, 2400), (1200, 1500), (800, 1500), (800, 1300), (1200, 1300), (1200, 450)]
    route = mended(advised(one_route(points), "wall-zone"), "another-way").routes[0]
    assert route.points == ((1200, 2400), (1200, 450))


def test_deeper_where_the_wall_allows_it() -> None:
    """By hand: 200 mm of studs and a 6 mm cable leave 50 mm on both sides. Leg 3 is in the strip."""
    advice = advised(one_route(UNDER), "wall-zone")
    assert mended(advice, "deepen").routes[0].depth == (50.0, 50.0, 20.0)


def test_deeper_would_need_a_chase_that_the_leaf_does_not_allow() -> None:
    """Worked: 50 mm less 13 of plaster and 6 of cable are a 43 mm chase; a third of 100 is 33.3."""
    advice = advised(one_route([(800, 2400), (800, 450), (1200, 450)], depth=15, **MASONRY), "wall-zone")
    assert refused(advice, "deepen") == "50 mm deep would need a chase of 43 mm; this leaf allows 33.3."


def test_deeper_needs_a_thicker_wall() -> None:
    advice = advised(one_route(UNDER, thickness=100), "wall-zone")
    assert refused(advice, "deepen") == "50 mm from both faces needs a wall of 106 mm; this one has 100."


def test_no_way_between_doors_is_named_with_its_gap() -> None:
    doors = [opening("D1", 600, 0, 826, 2040, kind="door"), opening("D2", 3000, 0, 500, 2040, kind="door"),
             opening("H1", 1700, 1100, 1000, 700, kind="hatch")]  # fmt: skip
    data = one_route([(1500, 2400), (1500, 950), (2200, 950)], openings=doors,
                     accessories=[accessory("S1", 2200, 950)])  # fmt: skip
    advice = advised(data, "wall-zone")
    assert "No run in the zones leads to S1 without a covering" in refused(advice, "another-way")
    assert "through earthed steel conduit where no zone serves" in advice["covered-way"].words
    covered = mended(advice, "choose-covering").routes[0]
    assert covered.protection == ("earthed-steel-conduit", "none")
    assert "connected to earth" in str(advice["choose-covering"].as_data()["cost"])


@pytest.mark.parametrize(
    ("rcd", "words"),
    [
        (None, "Put an RCD of 30 mA"),
        ({"ma": 30, "at": "outlet"}, "Put the RCD of 30 mA at the origin"),
        ({"ma": 100}, "Change the RCD for one of 30 mA"),
        ({"ma": 10, "delayed": True}, "Change the RCD for one of 10 mA"),
    ],
)
def test_an_rcd_that_counts(rcd: Any, words: str) -> None:
    advice = advised(one_route([(1200, 2400), (1200, 450)], rcd=rcd), "wall-rcd")
    assert advice["choose-rcd"].words.startswith(words)
    changed = mended(advice, "choose-rcd").routes[0].rcd
    assert changed is not None
    assert (changed.at, changed.delayed) == ("origin", False)


def test_depth_is_no_way_out_of_metal() -> None:
    advice = advised(one_route([(1200, 2400), (1200, 450)], rcd=None, build="metal-stud"), "metal-wall")
    assert "at any depth" in refused(advice, "deepen")
    assert mended(advice, "choose-rcd").routes[0].rcd is not None


def test_a_route_is_led_on_to_what_it_misses() -> None:
    """By hand: from 900 down to the socket's upper edge at 493 are 407 mm."""
    advice = advised(one_route([(1200, 2400), (1200, 900)]), "route-joins")
    assert mended(advice, "reach").routes[0].points == ((1200, 2400), (1200, 493))
    assert advice["reach"].words == "Lead the cable on to S1. Go down 407 mm."


def test_where_the_rules_have_no_zones_it_is_led_straight_on() -> None:
    """By hand: 227 mm to the socket's left edge at 1127, and 407 down to its upper edge at 493."""
    advice = advised(one_route([(300, 900), (900, 900)]), "route-joins", pack="anz")
    assert advice["reach"].as_data()["cost"] == "It takes 634 mm more cable."


def test_a_route_goes_round_an_opening() -> None:
    window = opening("F1", 900, 1000, 600, 1000)
    points = [(1200, 2400), (1200, 450)]
    data = one_route(points, openings=[window], accessories=[accessory("S1", 1200, 450, width=900)])
    assert mended(advised(data, "route-on-wall"), "another-way").routes[0].points[-1] == (1200, 450)


def test_a_leg_that_stands_out_of_the_wall_is_laid_within_it() -> None:
    advice = advised(one_route([(1200, 2400), (1200, 450)], depth=-4), "depth-in-wall")
    assert mended(advice, "fit-depth").routes[0].depth == (13.0,)


def test_a_chase_is_cut_less_deep() -> None:
    """By hand: a sixth of 100 mm is 16.7; with 13 of plaster and a 6 mm cable that is 23.7 deep, so 23."""
    advice = advised(one_route([(300, 450), (1200, 450)], depth=30, **MASONRY), "chase-depth")
    assert mended(advice, "shallower").routes[0].depth == (23.0,)
    assert "16 mm deep instead of 23 mm" in str(advice["shallower"].as_data()["cost"])


def test_a_chase_cut_deep_to_leave_the_zones_is_flat_and_covered() -> None:
    advice = advised(
        one_route([(800, 2400), (800, 450), (1200, 450)], depth=[50, 15], **MASONRY), "chase-depth"
    )
    route = mended(advice, "choose-covering").routes[0]
    assert (route.depth[0], route.protection[0]) == (26.0, "earthed-steel-conduit")


def test_a_hole_moves_to_the_nearest_place() -> None:
    """By hand: 0.25 to 0.4 of 3000 mm is 750 to 1200; 1300 is nearest to 1200."""
    advice = advised(joist(holes=[{"x": 1300}]), "joist-hole-position")
    hole = mended(advice, "move-hole").joists[0].holes[0]
    assert (hole.x, hole.y, hole.diameter) == (1200.0, 100.0, 20.0)


def test_a_hole_is_made_smaller_as_far_as_its_cable_allows() -> None:
    """By hand: a quarter of 200 mm is 50."""
    advice = advised(joist(holes=[{"diameter": 60, "cable_diameter": 20}]), "joist-hole-size")
    assert mended(advice, "smaller-hole").joists[0].holes[0].diameter == 50.0
    stuck = advised(joist(holes=[{"diameter": 60}]), "joist-hole-size")
    assert refused(stuck, "move-hole") == "Hole H1 needs 60 mm; a joist 200 mm deep allows 50."


def test_two_holes_are_drawn_apart() -> None:
    advice = advised(joist(holes=[{"x": 900}, {"x": 920}]), "joist-hole-spacing")
    first, second = mended(advice, "move-hole").joists[0].holes
    assert abs(first.x - second.x) == pytest.approx(60.0)


def test_no_hole_keeps_its_cover_in_a_flat_joist() -> None:
    """Worked: 50 mm above and below a hole of 20 need a joist of 120; a fifth of 100 is none."""
    advice = advised(joist(depth=100, holes=[{"y": 50}]), "joist-cover")
    assert "needs a joist of 120 mm; this one has 100" in refused(advice, "move-hole")
    assert mended(advice, "choose-covering").joists[0].holes[0].protection == "steel-plate"


def test_a_notch_is_mended_or_a_hole_takes_its_place() -> None:
    """By hand: an eighth of 200 is 25; a hole of 40 in a joist of 200 leaves 80 on both sides."""
    advice = advised(joist(notches=[{"depth": 40}]), "joist-notch-depth")
    assert mended(advice, "smaller-notch").joists[0].notches[0].depth == 25.0
    changed = mended(advice, "hole-instead").joists[0]
    assert (changed.notches, changed.holes[0].x, changed.holes[0].y) == ((), 750.0, 100.0)


def test_a_notch_moves_into_its_stretch() -> None:
    """By hand: 0.25 of 3000 is 750, half of the 40 mm notch less is 730."""
    advice = advised(joist(notches=[{"x": 900}]), "joist-notch-position")
    assert mended(advice, "move-notch").joists[0].notches[0].x == 730.0


def test_a_metal_web_joist_has_gaps() -> None:
    advice = advised(joist(kind="metal-web", holes=[{}]), "joist-kind")
    assert mended(advice, "use-gap").joists[0].holes == ()
    other = advised(joist(kind="i-joist", holes=[{}]), "joist-kind")
    assert "decided by the maker of the joist" in refused(other, "cut-less")


def test_a_cable_is_clipped_lower_down_a_joist() -> None:
    advice = advised(run(below_top=20), "run-cover")
    assert mended(advice, "along-side").runs[0].below_top == 50.0


def test_a_hole_in_a_stud_goes_to_its_middle() -> None:
    advice = advised(stud(holes=[{"x": 30}]), "stud-cover", pack="us")
    assert mended(advice, "move-hole").studs[0].holes[0].x == 70.0


def test_a_cable_keeps_from_the_edge_of_the_framing() -> None:
    """By hand: 32 mm (1-1/4 in) behind 13 mm of board are 45 mm or a trifle less."""
    data = one_route([(1200, 2400), (1200, 450)], depth=20, build="timber-stud", rcd=None)
    depth = mended(advised(data, "wall-edge", pack="us"), "deepen").routes[0].depth[0]
    assert depth == pytest.approx(load_pack("us").walls.trigger_depth + 13, abs=0.01)


def test_a_screw_moves_to_the_nearest_free_place() -> None:
    """By hand: the strip ends at 1273, half a 20 mm cable and half a 5 mm drill more is 1285.5."""
    screw = {
        "id": "F1",
        "wall": "W1",
        "face": "front",
        "x": 1260,
        "y": 1500,
        "penetration": 30,
        "diameter": 5,
    }
    data = one_route([(1200, 2400), (1200, 450)], fixings=[screw])
    moved = mended(advised(data, "fixing"), "move-fixing").fixings[0]
    assert (moved.x, moved.y) == (1286.0, 1500.0)


def test_what_has_passed_needs_no_remedy() -> None:
    case = made(one_route([(1200, 2400), (1200, 450)]))
    assert all(remedies(case, UK, one) == () for one in judge(case, UK).findings)


def test_every_rule_that_can_fail_is_thought_of() -> None:
    assert set(templates()) == set(MAKERS)
