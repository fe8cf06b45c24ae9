"""What a lesson says you will see in its live picture is what the engine shows there.

Grades as in the lessons' clauses; sums by hand are grade D, from the boundaries of those clauses.
"""

from typing import Any

import pytest

from tests.course.lessons import PATHS
from tests.course.live import ends, file_of, live_box, move
from zonelib.sheet.lesson.live import LiveBox

FILES = {path.name[:2]: file_of(path) for path in PATHS}
LIVE = [pytest.param(n, name, id=f"{n}-{name}") for n, file in FILES.items() for name in file.live]
Knobs = dict[str, Any]


@pytest.mark.parametrize(("number", "name"), LIVE)
def test_every_knob_can_be_moved_to_its_ends_and_the_verdict_follows(number: str, name: str) -> None:
    """A picture to change that always says the same would teach nothing."""
    box = live_box(FILES[number], name)
    told = {status(box)}
    for knob in box.knobs:
        start = knob.value
        for value in ends(knob):
            knob.value = value
            assert box.page.value.count("<svg") == 1, (knob.description, value)
            told.add(status(box))
        knob.value = start
    assert len(told) >= 2


def status(box: LiveBox) -> str:
    """Return the verdict as the page shows it, without how the knobs stand."""
    verdict: str = box.page.value.partition("</p>")[2].partition("<svg")[0]
    return verdict


CLAIMS: list[tuple[str, str, Knobs, list[str], list[str]]] = [
    # 00: the strip of S1 is 900 - 73 to 900 + 73; a place far from all zones is clear
    ("00", "drill", {"across": 900, "up": 1600}, ["a cable may be here"], []),
    ("00", "drill", {"across": 1500, "up": 1700}, ["no cable expected here by the rules"], []),
    # 02: 126 - 50 - 6 = 70
    ("02", "cut", {"depth": 50}, ["front face – not asked", "rear face – not asked"], []),
    ("02", "cut", {"depth": 70}, ["front face – not asked", "rear face – not asked"], []),
    ("02", "cut", {"depth": 71}, ["front face – not asked", "rear face – not met"], []),
    ("02", "rcd", {"rcd": "none"}, ["RCD – not met"], []),
    ("02", "rcd", {"rcd": "30 mA at the origin"}, ["RCD – met"], ["not met"]),
    ("02", "rcd", {"rcd": "100 mA at the origin"}, ["RCD – not met"], []),
    ("02", "rcd", {"rcd": "30 mA, time-delayed"}, ["RCD – not met"], []),
    ("02", "rcd", {"rcd": "30 mA at the socket"}, ["RCD – not met"], []),
    ("02", "rcd", {"rcd": "none", "depth": 60}, ["RCD – not asked"], ["not met"]),
    # 03: top zone 150 down from 2400, half the cable 5.15
    ("03", "across", {"height of leg": 2260}, ["front face – met"], ["not met"]),
    ("03", "across", {"height of leg": 2255}, ["front face – not met"], []),
    ("03", "across", {"height of leg": 450}, ["front face – not met"], []),
    ("03", "across", {"height of leg": 2390, "comes down": 3000}, ["front face – met"], ["not met"]),
    ("03", "across", {"height of leg": 2390, "last leg": 967}, ["front face – met"], []),
    ("03", "across", {"height of leg": 2390, "last leg": 968}, ["front face – not met"], []),
    ("03", "across", {"height of leg": 2300, "height of the wall": 2500}, ["front face – not met"], []),
    # 04: each way out, and each that is none
    ("04", "leg", {"depth": 50}, ["front face – met"], ["not met"]),
    ("04", "leg", {"covering": "steel conduit, earthed"}, ["front face – met"], ["not met"]),
    ("04", "leg", {"covering": "steel plate, 3 mm"}, ["front face – met"], ["not met"]),
    ("04", "leg", {"supply": "SELV", "rcd": "none"}, ["SELV"], ["not met"]),
    ("04", "leg", {"covering": "plastic conduit"}, ["front face – not met"], []),
    ("04", "leg", {"covering": "steel capping"}, ["front face – not met"], []),
    ("04", "leg", {"covering": "steel conduit, not earthed"}, ["front face – not met"], []),
    # 05: 101 mm, or not to be told from the rear, and the strips are gone; 106 - 50 - 6 = 50
    ("05", "rear", {}, ["rear face – met: in the zones"], ["not met"]),
    ("05", "rear", {"thickness": 101}, ["rear face – not met"], []),
    ("05", "rear", {"can be told": False}, ["rear face – not met"], []),
    ("05", "rear", {"thickness": 106, "depth": 50}, ["rear face – not asked", "front face – not asked"], []),
    # 06: metal at any depth; shallow, the zone as well
    ("06", "metal", {}, ["Metal in the wall – not met"], []),
    ("06", "metal", {"rcd": "30 mA at the origin"}, ["Metal in the wall – met"], ["not met"]),
    ("06", "metal", {"rcd": "100 mA at the origin"}, ["Metal in the wall – not met"], []),
    ("06", "metal", {"covering": "steel conduit, earthed"}, ["Metal in the wall – met"], ["not met"]),
    ("06", "metal", {"covering": "plastic conduit"}, ["Metal in the wall – not met"], []),
    ("06", "metal", {"supply": "SELV"}, ["Metal in the wall – met"], ["not met"]),
    ("06", "metal", {"studs": "timber"}, [], ["not met"]),
    ("06", "metal", {"rcd": "30 mA at the origin", "depth": 20}, ["front face – not met"], []),
    # 07: the window over S1 (1827 to 1973) ends its strip; a low sill cuts the level strip
    ("07", "move", {}, ["front face – met"], ["not met"]),
    ("07", "move", {"sill": 440}, ["not met"], []),
    ("07", "slope", {}, ["front face – met"], ["not met"]),
    ("07", "slope", {"point b": 1385}, ["front face – not met"], []),
    ("07", "slope", {"point b": 1385, "measured": "the shortest way"}, ["front face – met"], ["not met"]),
    # 08: the corner between bed.1 and bed.2 is at 3400; its zone reaches to 3250
    ("08", "round", {"ends": 3260}, ["front face – met"], ["not met"]),
    ("08", "round", {"ends": 3240}, ["Zone, wall bed.1, front face – not met"], []),
    ("08", "round", {"height": 2300}, ["front face – met"], ["not met"]),
    # 09: 200 / 4 = 50; 120 - 100 = 20 by cover, 120 / 4 = 30 by size; 0.25 * 3600 = 900
    ("09", "joist", {"hole, mm from": 900}, ["Place of the hole, H1 – met"], ["not met"]),
    ("09", "joist", {"hole, mm from": 1000, "across": 50}, ["Size of the hole, H1 – met"], ["not met"]),
    ("09", "joist", {"hole, mm from": 1000, "across": 51}, ["Size of the hole, H1 – not met"], []),
    ("09", "joist", {"depth of the joist": 120, "above": 60}, ["Timber over the cable, H1 – met"], []),
    (
        "09", "joist", {"depth of the joist": 120, "above": 60, "across": 21},
        ["Timber over the cable, H1 – not met", "Size of the hole, H1 – met"], [],
    ),
    ("09", "joist", {"over the notch": "nothing"}, ["Timber over the cable, N1 – not met"], []),
    ("09", "joist", {"kind": "I-joist"}, ["Kind of joist"], []),
    # 10: 100 / 3 = 33.3 and 100 / 6 = 16.7 in the leaf; 50 - 13 + 6 = 43 = 129 / 3, and 129 + 26 = 155
    ("10", "chase", {"depth": 40}, ["Depth of the chase – met"], []),
    ("10", "chase", {"depth": 41}, ["Depth of the chase, leg 1 (a to b) – not met"], []),
    ("10", "chase", {"runs": "level", "depth": 23}, ["Depth of the chase – met"], []),
    ("10", "chase", {"runs": "level", "depth": 24}, ["Depth of the chase, leg 1 (a to b) – not met"], []),
    ("10", "chase", {"runs": "on the slant"}, ["Line of the chase, leg 1 (a to b) – not met"], []),
    ("10", "chase", {"thickness": 155, "depth": 50}, ["Depth of the chase – met"], ["not met"]),
    ("10", "chase", {"thickness": 154, "depth": 50}, ["Depth of the chase, leg 1 (a to b) – not met"], []),
    # 11: S2 on the other side of a thin wall; from 50 mm on no place is called clear
    ("11", "screw", {}, ["a cable may be here"], []),
    ("11", "screw", {"thickness of the wall": 150}, ["no cable expected here"], []),
    ("11", "screw", {"across": 1150, "up": 1700}, ["no cable expected here"], []),
    ("11", "screw", {"across": 1150, "up": 1700, "deep": 50}, ["no zone here, but deep"], []),
    # 12: each of the ways to put it right, and plastic is none
    ("12", "mend", {"height": 2300, "R3": "30 mA at the origin"}, [], ["not met"]),
    ("12", "mend", {"covering": "steel conduit, earthed", "R3": "30 mA at the origin"}, [], ["not met"]),
    ("12", "mend", {"covering": "plastic conduit"}, ["Zone, R1, front face – not met"], []),
    # 13: as its list of what you saw
    ("13", "country", {}, ["Zone, front face – not met", "RCD – met"], []),
    ("13", "country", {"rules of": "Germany"}, ["Zone, front face – not met"], ["RCD"]),
    ("13", "country", {"rules of": "Germany", "comes down": 2150}, ["Zone, front face – met"], ["not met"]),
    ("13", "country", {"rules of": "Germany", "comes down": 200}, ["Zone, front face – met"], ["not met"]),
    ("13", "country", {"rules of": "Australia and New Zealand"}, ["RCD – met"], ["not met", "Zone"]),
    ("13", "country", {"rules of": "United States"}, ["Edge of the framing, front face – not met"], ["Zone"]),
]  # fmt: skip


@pytest.mark.parametrize(("number", "name", "knobs", "said", "unsaid"), CLAIMS)
def test_what_the_lesson_says_is_so(
    number: str, name: str, knobs: Knobs, said: list[str], unsaid: list[str]
) -> None:
    box = live_box(FILES[number], name)
    move(box, knobs)
    told = status(box)
    assert [one for one in said if one not in told] == [], told
    assert [one for one in unsaid if one in told] == [], told
