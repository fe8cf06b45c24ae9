"""A table ``[variants]``: its names and sums, what follows when edges move, and what is told of a slip."""

import re
from pathlib import Path
from typing import Any

import pytest

from tests.coach.rooms import SAID, SOCKET, START, family
from tests.exercise.answers import exercise
from tests.exercise.making import made, stated
from zonelib.coach.variants import vary
from zonelib.coach.variants.checking import must_vary, variant_doubts
from zonelib.coach.variants.marks import Crossed, moved
from zonelib.coach.variants.places import Places
from zonelib.coach.variants.vary import plain_data
from zonelib.coach.variants.wording import reworded, said
from zonelib.site.faults import FileFault

PLACES = Places(plain_data(exercise("living-room-corner")))


def refusal(**table: Any) -> str:
    with pytest.raises(FileFault, match="variants") as caught:
        must_vary(family(**table), ())
    return str(caught.value)


def doubts(**table: Any) -> list[str]:
    one = family(**table)
    return list(variant_doubts(one, [one.room(seed) for seed in range(3, 6)]))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("S1.x", 2650), ("start.y", 2400), ("depth", 15), ("W2.front.internal_corners.2", 3600),
        ("case.walls.W2.openings.W1.y", 900), ("model.points.3.x", 3525), ("typical.2.rcd.ma", 100),
        ("route.start.1", 400), ("case.walls.1.accessories.L1.y", 1200),
    ],
)  # fmt: skip
def test_a_name_leads_to_a_place(name: str, value: float) -> None:
    assert PLACES.value(name) == value


@pytest.mark.parametrize(
    ("text", "value"),
    [("700", 700), ("S1.x - 50", 2600), ("length / 3 + 26", 1226), ("W2.length - length * 2 - 0.5", -0.5)],
)
def test_a_sum_is_taken_from_left_to_right(text: str, value: float) -> None:
    assert PLACES.sum(text, {"length": 3600}) == value


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("S9.x", '"S9.x"; allowed: case, model, typical, route,'),
        ("S1.z", '"z" in "S1.z"; allowed: id, kind, face, x, y, width, height'),
        ("W2.openings.7", '"7" in "W2.openings.7"; allowed: 1, 2'),
        ("S1.x.y", '"y" in "S1.x.y"; allowed: nothing below it'),
        ("S1.x % 2", '"%" in "S1.x % 2"; allowed: + - * / with a space on each side'),
        ("S1.x -", '"S1.x -"; allowed: names and numbers with + - * / between them'),
        ("S1.kind + 1", "'socket' in \"S1.kind + 1\"; allowed: a number"),
        ("__import__", '"__import__"; allowed: case,'),
    ],
)  # fmt: skip
def test_a_name_or_sum_that_leads_nowhere_is_told(text: str, told: str) -> None:
    with pytest.raises(FileFault, match=re.escape(told)):
        PLACES.sum(text, {})


def test_a_name_that_two_things_have_is_told() -> None:
    data = plain_data(exercise("living-room-corner"))
    data["case"]["walls"][0]["openings"][0]["id"] = "S1"
    with pytest.raises(FileFault, match=r'"S1.x", where two things are named S1; allowed: the whole path'):
        Places(data).value("S1.x")


EDGES = ([0.0, 1000.0, 3000.0], [0.0, 1200.0, 2800.0])


@pytest.mark.parametrize(
    ("value", "goes_to"), [(1000, 1200), (500, 600), (2000, 2000), (3000, 2800), (3100, 2900), (-50, -50)]
)
def test_a_place_keeps_its_share_between_edges(value: float, goes_to: float) -> None:
    """Worked by hand: 500 is half way to 1000, so half way to 1200; beyond an edge it stays as far."""
    assert moved(value, *EDGES) == goes_to


def test_edges_that_change_places_are_refused_or_the_later_passed_over() -> None:
    before, after = [0.0, 3000.0, 1000.0, 1500.0], [0.0, 3000.0, 1400.0, 1300.0]
    with pytest.raises(Crossed, match="things change places"):
        moved(1200, before, after)
    assert moved(1000, before, after, strict=False) == 1400
    assert moved(2000, before, after, strict=False) == 2200


@pytest.mark.parametrize(
    ("draw", "told"),
    [
        ({"from": 300, "sets": ["start.x"]}, "variants.draw.start: found neither values nor a range"),
        ({"from": 300, "to": 305, "sets": ["start.x"]}, "from 300 to 305; allowed: a range of a step, 10"),
        ({**START, "values": [1, 2]}, "variants.draw.start: found both values and a range"),
        ({**START, "sets": ["start.x = start"]}, "variants.draw.start.sets: found only sums"),
        ({**START, "sets": ["start.x", "S1.x = start + 500"]},
         'variants.draw.start.sets: found "S1.x = start + 500", which gives 1200; allowed: 1250'),
        ({**START, "sets": ["start.x", "W1.height"]},
         'variants.draw.start.sets: found "W1.height", which gives 700; allowed: 2400'),
        ({**START, "sets": ["begin.x"]}, 'variants: found "begin.x"'),
    ],
)  # fmt: skip
def test_a_slip_in_a_draw_is_told(draw: dict[str, Any], told: str) -> None:
    assert told in refusal(draw={"start": draw})


def test_two_phrases_that_read_alike_are_told() -> None:
    """The wall and the drop are both 700 from something; in another room they would differ."""
    words = ["{start.x} mm", "{S1.x - 550} mm"]
    with pytest.raises(FileFault, match=r'variants\.words: found "700 mm" for two phrases'):
        family(words=words).room(1)


def test_numbers_and_phrases_of_the_texts_are_looked_at() -> None:
    assert doubts() == []
    assert doubts(words=[]) == [
        'A text says 700, and start.x changes. Put the phrase into words, with "{start.x}".'
    ]
    assert doubts(words=[SAID, "{S1.x} mm to the right"]) == [
        '[variants] words: no text says "1250 mm to the right".'
    ]


def test_what_is_set_to_a_number_is_not_said_to_change() -> None:
    """The text says 700: so it does in every room, if a place is held at 700 whatever is drawn."""
    held = {**SOCKET, "sets": [*SOCKET["sets"], "start.x = 700"]}
    assert doubts(draw={"socket": held}, words=[]) == []


def test_a_phrase_without_braces_says_that_its_number_stays() -> None:
    assert doubts(words=["700 mm from the left"]) == []


def test_a_phrase_asks_for_places_or_a_comma() -> None:
    values = {"far": 1600.125}
    assert said("{far} {far:2} {far:,} {far - 1600:3}", PLACES, values) == "1600.1 1600.12 1,600.1 0.125"


def test_what_is_on_offer_is_reworded_too() -> None:
    """A remedy of an inspection names a depth: in a room with another one it has to say that."""
    data = plain_data(exercise("bedsit-inspection"))
    reworded(data, {"20 mm deep, and keep": "25 mm deep, and keep"})
    said_now = {one["id"]: one["words"] for one in data["inspect"]["remedies"]}
    assert said_now["level-r1"] == "Lay R1 level from S1 to S2, 25 mm deep, and keep its RCD"


def test_rooms_that_are_alike_are_told() -> None:
    """Two values for three seeds: two rooms must be alike, but for their names."""
    few = {"values": [700, 710], "sets": ["start.x"]}
    (told,) = doubts(draw={"start": few})
    assert "two are alike" in told


def test_ranges_that_give_no_room_are_told() -> None:
    """Below 150 mm beside the wall's end the start lies in the corner's zone: the run goes another way."""
    draw = {"start": {**START, "from": 20, "to": 100}}
    with pytest.raises(
        FileFault, match=r"200 draws gave no room, 200 times because .*; allowed: ranges, or a band"
    ):
        family(draw=draw).room(1)


def test_a_band_that_no_room_meets_is_told() -> None:
    with pytest.raises(FileFault, match=r"its tightest place leaves 67\.9 mm, not 500 to 900"):
        family(band={"margin": [500, 900]}).room(1)


def test_an_exercise_without_a_table_cannot_vary() -> None:
    plain = exercise("bedroom-drop").model_copy(update={"variants": None})
    with pytest.raises(FileFault, match=r"variants: found nothing; allowed: a table \[variants\]"):
        vary(plain, 1)


def test_a_file_cannot_claim_to_be_a_room(tmp_path: Path) -> None:
    data = stated("zones", {"wall": "W1"}, variant="00000000ab")
    with pytest.raises(FileFault, match='variant: found "00000000ab"; allowed: nothing'):
        made(tmp_path, data)


def test_a_socket_that_moves_takes_its_strip_and_answers_with_it() -> None:
    room = family(draw={"socket": SOCKET}, words=[]).room(5).exercise
    x = room.case["walls"][0]["accessories"][0]["x"]
    assert [point[0] for point in room.model["points"]] == [700, 700, x, x]
