"""What follows in a room when its edges move: zones of every pack, old cuts, and what fails on a cable."""

from pathlib import Path
from typing import Any

import pytest

from tests.coach.rooms import family
from tests.exercise.test_course_frozen import course
from zonelib.coach.variants.following import case_of
from zonelib.coach.variants.marks import edges
from zonelib.coach.variants.vary import family_of, plain_data

Data = dict[str, Any]
FEED: Data = {
    "from": 1450, "to": 1750, "step": 10,
    "sets": ["R1.points.1.x", "straight.points.1.x", "straight.points.2.x"],
}  # fmt: skip


def drawn(least: float, most: float, *sets: str) -> Data:
    return {"from": least, "to": most, "step": 10, "sets": list(sets)}


def test_bands_beside_a_window_move_with_it() -> None:
    """In the German pack they lie 100 to 300 mm beside it: so the model answer needs no sums."""
    made = family(
        "de-kitchen-zones", draw={"window": drawn(1300, 1700, "N1.x")}, words=["1400 and 2500 to 2700"]
    )
    room = made.room(3).exercise
    x = room.case["walls"][0]["openings"][0]["x"]
    assert x != 1500
    assert [area[0][0] for area in room.model["areas"][4:]] == [x - 300, x + 900 + 100]


def test_a_band_over_a_worktop_is_no_edge_where_there_is_no_worktop() -> None:
    """The switch is as high as the edge of such a band, 1300 mm: its cable goes where the switch goes."""
    made = family("de-hall-runs", draw={"switch": drawn(1310, 1400, "L1.y")}, words=[])
    room = made.room(1).exercise
    (switch,) = (one["y"] for one in room.case["walls"][0]["accessories"] if one["id"] == "L1")
    assert room.case["routes"][0]["points"][-1][1] == switch > 1300


def test_a_cut_at_an_old_notch_goes_with_the_notch() -> None:
    """The first slip is a hole straight below the old notch, 900 mm along."""
    made = family("landing-old-notches", draw={"notch": drawn(880, 920, "N1.x")}, words=[])
    room = made.room(2).exercise
    old = room.case["joists"][0]["notches"][0]["x"]
    assert old != 900
    assert room.wrong[0]["answer"]["holes"][0]["x"] == old


def test_the_ends_of_a_mark_go_with_what_fails() -> None:
    """The cable slants, so that neither its bends nor its share tell where it leaves the band at the top."""
    made = family(
        "bedroom-slanting-switch", draw={"feed": FEED, "height": drawn(2300, 2600, "W1.height")}, words=[]
    )
    for seed in range(3):
        room = made.room(seed)
        assert room.refused == ()
        mark = room.exercise.model["stretches"][0]
        (fails,) = (one.where for one in room.bundle.verdict.failures if one.subject == "R1")
        assert mark["from"] == pytest.approx(fails.from_mm, abs=2)
        assert mark["to"] == pytest.approx(fails.to_mm, abs=16)  # in the exercise it is 11 mm short


def test_a_cable_that_a_table_names_is_laid_before_the_marks_on_it_follow() -> None:
    """Its end is 200 mm farther along than the wall's own edges tell."""
    made = family("bedroom-slanting-switch", draw={"feed": {**FEED, "from": 1700, "to": 1750}}, words=[])
    room = made.room(0).exercise
    assert room.case["routes"][0]["points"][0][0] >= 1700
    assert room.model["stretches"][0]["to"] > 1490 + 60


def test_the_case_of_a_room_is_read_as_the_course_reads_it(tmp_path: Path) -> None:
    reads = course(tmp_path, 'readings = { blank_plates = "no" }')
    made = family_of(family().exercise, course=reads)
    assert case_of(plain_data(made.exercise), made.bundle).readings["blank_plates"] == "no"
    assert made.room(1).bundle.case.readings["blank_plates"] == "no"


def test_of_edges_that_lie_together_the_first_counts() -> None:
    there = edges([0.0, 500.0, 500.0, 900.0], [0.0, 600.0, 800.0, 900.0])
    assert [one.after for one in there.pairs] == [0.0, 600.0, 900.0]
    assert there.moved(500) == 600
