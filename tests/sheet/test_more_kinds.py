"""What the sheet gives for choices, numbers, given cables and inspections, and what it takes."""

import json
from pathlib import Path
from typing import Any

import pytest

from zonelib.exercise import bank_path, freeze, read_exercise
from zonelib.exercise.bundle import Bundle
from zonelib.sheet import Sheet, SheetTrouble
from zonelib.sheet.kinds import pad_for, pad_kind
from zonelib.sheet.still import still_picture, still_words
from zonelib.sheet.task import pad_task

SCREWS, SAY, CHASE, RUN, WALL = (
    "landing-which-screws", "porch-what-to-say", "utility-deepest-chase", "store-given-run",
    "dining-inspection",
)  # fmt: skip


def bundle(name: str) -> Bundle:
    return freeze(read_exercise(bank_path(name)))


@pytest.mark.parametrize("name", [SCREWS, SAY])
def test_the_page_is_not_told_which_choices_are_right(name: str) -> None:
    task = pad_task(bundle(name))
    assert all(set(one) == {"id", "words"} for one in task["options"])
    whys = [one["why"] for one in read_exercise(bank_path(name)).model_dump()["choose"]["choices"]]
    assert not [why for why in whys if why in json.dumps(task)]


def test_the_choices_are_read_where_no_kernel_runs() -> None:
    words = still_words(bundle(SAY))
    assert "<li>E: Have a registered electrician look at it.</li>" in words["text/html"]
    assert "\n- E: Have a registered electrician look at it." in words["text/plain"]
    assert "<li>" not in still_words(bundle(RUN))["text/html"]


def test_a_question_without_a_drawing_says_so(tmp_path: Path) -> None:
    opened = Sheet.from_bank(SAY, folder=tmp_path)
    assert still_picture(opened.bundle, opened.result()) == {
        "text/plain": "There is no drawing with this question."
    }


def test_the_page_is_not_told_the_number(tmp_path: Path) -> None:
    opened = Sheet.from_bank(CHASE, folder=tmp_path)
    assert "34" not in json.dumps({key: opened.pad.task[key] for key in ("about", "unit", "allowed")})
    opened.pad.set_state({"answer": {"value": "x" * 41}})
    assert "allowed: a number such as 12.5 or 12,5" in opened.pad.problem
    assert opened.answer == {}


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ({"depth": [15], "protection": ["none", "none"], "rcd": None}, "one depth for each of the 2 legs"),
        ({"depth": [15, 15], "protection": ["gold", "none"], "rcd": None}, "the covering of leg 1"),
        ({"points": [[0, 0], [1, 1]]}, "points"),
    ],
)
def test_a_given_cable_keeps_its_legs(tmp_path: Path, value: dict[str, Any], told: str) -> None:
    opened = Sheet.from_bank(RUN, folder=tmp_path)
    opened.pad.set_state({"answer": value})
    assert told in opened.pad.problem
    assert opened.answer == {}


def rewritten(tmp_path: Path, text: str) -> Bundle:
    file = tmp_path / "rewritten.toml"
    file.write_text(text, encoding="utf-8")
    return freeze(read_exercise(file))


def test_what_a_given_cable_does_not_open_is_refused(tmp_path: Path) -> None:
    text = bank_path(RUN).read_text(encoding="utf-8").replace("[protect]", '[protect]\nopen = ["depth"]')
    closed = rewritten(tmp_path, text.replace(RUN, "rewritten"))
    with pytest.raises(SheetTrouble, match=r"does not open rcd: it is given\. It opens: depth"):
        pad_for(closed).changed(closed, {}, {"rcd": {"ma": 30}})


IN_A_ROOM = """
[protect]
room = "bed"
joins = ["SW1"]
cable = { width = 8.2, thickness = 5.0 }
depth = 15
points = [[13200, 1200], [13200, 2330], [15000, 2330]]

[model]
depth = [15, 15]
rcd = { ma = 30 }
"""


def test_a_given_cable_round_a_room_is_drawn_in_its_row(tmp_path: Path) -> None:
    name = "bedroom-over-the-ceiling"
    case = bank_path(name).read_text(encoding="utf-8").partition("[route]")[0]
    text = case.replace('kind = "route"', 'kind = "protect"').replace(name, "rewritten") + IN_A_ROOM
    found = pad_task(rewritten(tmp_path, text))
    assert [one["id"] for one in found["walls"]][:2] == ["bed.1", "bed.2"]
    assert list(found["pictures"]) == ["front"]


def checked(tmp_path: Path, stretches: list[dict[str, Any]]) -> dict[int, dict[str, Any]]:
    opened = Sheet.from_bank(WALL, folder=tmp_path)
    opened.set(stretches=stretches, passes={})
    opened.check()
    assert opened.pad.result
    return {one["n"]: one for one in opened.pad.result["stretches"]}


def test_what_an_inspection_missed_and_what_passes_is_drawn_under_the_panels_numbers(tmp_path: Path) -> None:
    found = checked(tmp_path, [{"route": "R1", "from": 500, "to": 900}])
    assert found[3]["points"] == [[800, 1900], [800, 1500]]
    assert found[3]["text"] == "R1 passes from 500 to 900 mm, and is marked there."
    assert found[2]["points"] == [[3400, 2400], [3400, 1200]]  # the whole of R3, which has no RCD
    assert found[1]["points"][1:-1] == [[1200, 250], [2000, 250]]


def test_numbers_on_one_stretch_stand_apart(tmp_path: Path) -> None:
    opened = Sheet.from_bank("study-inspection", folder=tmp_path)
    opened.set(stretches=[{"route": "R1", "from": 0, "to": 50}], passes={})
    opened.check()
    assert opened.pad.result
    at = [one["at"] for one in opened.pad.result["stretches"] if one["text"].startswith("R3")]
    assert abs(at[0][0] - at[1][0]) > 150


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ({"stretches": [{"route": "R9"}]}, "the route of stretch 1 must be one of R1, R2, R3"),
        ({"stretches": [{"route": "R1", "why": "x"}]}, "the why of stretch 1"),
        ({"passes": {"R9": True}}, "R9 is none of the cables R1, R2, R3"),
        ({"stretches": [{"route": "R1", "from": "left"}]}, "from"),
    ],
)
def test_names_that_an_inspection_does_not_offer_are_refused(value: dict[str, Any], told: str) -> None:
    assert told in " ".join(pad_kind("inspect").troubles(value, pad_task(bundle(WALL))))


def test_the_question_of_an_inspection_does_not_say_what_meets_the_rules() -> None:
    task = pad_task(bundle(WALL))
    assert "meets the rules" not in json.dumps(task["pictures"])
    assert "lay-level" in [one["id"] for one in task["remedies"]]


def test_cables_on_several_walls_are_beyond_the_pad() -> None:
    exercise = read_exercise(bank_path(WALL))
    case = dict(exercise.case)
    case["walls"] = [*case["walls"], {**case["walls"][0], "id": "W2", "accessories": []}]
    case["routes"] = [*case["routes"], {**case["routes"][0], "id": "R4", "wall": "W2", "joins": []}]
    two = exercise.model_copy(update={"case": case})
    with pytest.raises(SheetTrouble, match="no pad for exercises of the kind inspect on several walls"):
        pad_for(freeze(two))
