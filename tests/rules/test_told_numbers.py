"""Numbers and words that a reader is given beside a verdict: compared, rounded, and said."""

import pytest
from shapely import box

from tests.rules.cases import UK, Data, accessory, found, judged, made, one_route
from zonelib.rules.fixing_rules import avoid_region, hanging_region

UP = [(1200, 450), (1200, 2330)]
SLANT = [(1200, 450), (300, 2330)]


def test_a_face_out_of_reach_is_told_with_how_depth_and_limit_compare() -> None:
    """20 mm deep in 200 mm with a cable 6 mm thick: 174 mm from the rear, and 50 or more is out of reach."""
    rear = found(judged(one_route(UP)), "wall-zone", face="rear")
    assert (rear.status, rear.measured, rear.limit, rear.operator, rear.unit) == (
        "not-applicable", 174, 50, ">=", "mm",
    )  # fmt: skip
    assert "the nearest is 174 mm" in rear.text


def test_a_route_of_no_length_has_no_depth_to_tell() -> None:
    rear = found(judged(one_route([(1200, 450), (1200, 450)])), "wall-zone", face="rear")
    assert (rear.measured, rear.where.legs) == (None, ())
    assert "the nearest is – mm" in rear.text


def test_marks_along_a_route_are_whole_millimetres_in_words() -> None:
    """The finding keeps 157.1 to 2001.3 mm of DESIGN's example; the words say 157 to 2,001."""
    data = one_route(SLANT, cable={"width": 10.3, "thickness": 6.0}, thickness=100)
    outside = found(judged(data), "wall-zone", face="front")
    assert (round(outside.where.from_mm or 0, 1), round(outside.where.to_mm or 0, 1)) == (157.1, 2001.3)
    assert "from 157 to 2,001 mm along the route" in outside.text
    assert f"up to {outside.measured:,.1f} mm outside" in outside.text


@pytest.mark.parametrize(
    ("rcd", "reason", "words", "other"),
    [
        (None, "no RCD that counts", "The circuit has no RCD.", "time-delayed"),
        ({"ma": 100}, "no RCD that counts", "Its RCD is rated 100 mA, above 30 mA.", "time-delayed"),
        ({"ma": 30, "delayed": True}, "no RCD that counts: it is time-delayed",
         "Its RCD is time-delayed, and cuts off too late.", "rated"),
    ],
)  # fmt: skip
def test_what_stands_in_the_way_of_an_rcd_is_said_and_nothing_else(
    rcd: Data | None, reason: str, words: str, other: str
) -> None:
    finding = found(judged(one_route(UP, rcd=rcd)), "wall-rcd")
    assert finding.reason == reason
    assert words in finding.text
    assert other not in finding.text


def test_a_rating_is_told_in_ma_and_compared_as_at_most() -> None:
    for rcd, status in (({"ma": 30}, "pass"), ({"ma": 100}, "fail")):
        finding = found(judged(one_route(UP, rcd=rcd)), "wall-rcd")
        assert (finding.status, finding.measured, finding.limit, finding.operator, finding.unit) == (
            status, rcd["ma"], 30, "<=", "mA",
        )  # fmt: skip


def test_an_rcd_taken_as_enough_says_how_far_outside_the_cable_lies() -> None:
    data = one_route(SLANT, readings={"rcd_outside_zone": "yes"}, cable={"width": 10.3, "thickness": 6.0})
    finding = found(judged(data), "wall-zone", face="front")
    without = found(
        judged(one_route(SLANT, cable={"width": 10.3, "thickness": 6.0})), "wall-zone", face="front"
    )
    assert (finding.status, without.status) == ("pass", "fail")
    assert finding.measured == without.measured
    assert f"by up to {finding.measured:,.1f} mm" in finding.text
    assert "RCD of 30 mA" in finding.text


BARE = {"accessories": [accessory("S1", 1200, 450)], "length": 3600}


def test_without_a_drill_the_region_to_avoid_is_half_a_cable_wider_than_the_zones() -> None:
    """DESIGN 5: half of a 20 mm cable; the band along the top is 150 mm high, so 160 mm are avoided."""
    wall = made(one_route(UP, **BARE)).walls[0]
    column = box(3000, 600, 3001, 2400)
    for diameter, lowest in ((0.0, 2240.0), (8.0, 2236.0)):
        region = avoid_region(wall, "front", UK, diameter=diameter).intersection(column)
        assert region.bounds[1] == pytest.approx(lowest, abs=0.001)
    assert avoid_region(wall, "front", UK).intersection(column).bounds[1] == pytest.approx(2240, abs=0.001)


def test_a_thing_hangs_as_low_as_its_own_screw_and_drill_allow() -> None:
    """One screw of 8 mm: free up to 2236 mm, and down to the strip of S1, whose top is at 493: 507 mm."""
    wall = made(one_route(UP, **BARE)).walls[0]
    column = box(3000, 500, 3001, 2400)
    free = hanging_region(wall, "front", UK, [], diameter=8).intersection(column).bounds
    assert [free[1], free[3]] == pytest.approx([507, 2236], abs=0.001)
