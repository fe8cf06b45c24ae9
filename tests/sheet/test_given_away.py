"""What the pad is given gives no answer away, and what stands for a sheet shows what was drawn."""

import json
from pathlib import Path

import pytest

from zonelib.exercise import bank_path, freeze, read_exercise
from zonelib.sheet import Sheet
from zonelib.sheet.still import still_picture
from zonelib.sheet.task import pad_task

KINDS = {"bedroom-zones": "zones", "hall-pictures": "fixings", "bathroom-joist": "joist"}
DRAWN = {"bedroom-zones": "What you drew.", "hall-pictures": "P1 picture", "bathroom-joist": "B1"}


def sent(name: str) -> str:
    return json.dumps(pad_task(freeze(read_exercise(bank_path(name)))))


@pytest.mark.parametrize("name", KINDS)
def test_no_model_answer_is_sent(name: str) -> None:
    model = read_exercise(bank_path(name)).model
    assert all(json.dumps(part) not in sent(name) for part in model.values())


def test_no_zone_is_sent_where_zones_are_asked() -> None:
    assert "S1 socket" in sent("bedroom-zones")
    assert 'class=\\"zone\\"' not in sent("bedroom-zones")
    assert "Zone" not in sent("bedroom-zones")


def test_what_nobody_sees_is_not_sent_where_things_are_hung() -> None:
    """A second socket, S2, is out of sight on the rear of that wall."""
    assert '"S1"' in sent("hall-pictures")
    assert "S2" not in sent("hall-pictures")
    assert "Zone" not in sent("hall-pictures")


def test_where_cutting_is_allowed_is_not_sent() -> None:
    assert "H1" in sent("bathroom-joist")
    assert "may lie here" not in sent("bathroom-joist")


@pytest.mark.parametrize("name", KINDS)
def test_the_still_picture_shows_the_answer_and_no_verdict(name: str, tmp_path: Path) -> None:
    opened = Sheet.from_bank(name, folder=tmp_path)
    blank = still_picture(opened.bundle, opened.result())
    assert DRAWN[name] not in blank["text/plain"]
    opened.set(**dict(read_exercise(bank_path(name)).wrong[0]["answer"]))
    drawn = still_picture(opened.bundle, opened.result())
    assert DRAWN[name] in drawn["text/plain"]
    assert "Number 1" not in drawn["text/plain"]
    assert drawn["image/png"] != blank["image/png"]


@pytest.mark.parametrize(
    ("name", "held"),
    [("bedroom-zones", "7 areas"), ("hall-pictures", "3 things"), ("bathroom-joist", "2 cuts")],
)
def test_the_mirror_says_how_much_is_answered(name: str, held: str, tmp_path: Path) -> None:
    opened = Sheet.from_bank(name, folder=tmp_path)
    opened.set(**read_exercise(bank_path(name)).model)
    assert f"{held}, saved" in opened._mirrored()["text/plain"]


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("bedroom-zones", {"areas": [[[0, 0], [float("nan"), 5]]]}),
        ("bedroom-zones", {"areas": [[[0, 0]] * 41]}),
        ("bedroom-zones", {"areas": [[[0, 0], [5, 5]]] * 61}),
        ("hall-pictures", {"places": {"P1": [1, 2, 3]}}),
        ("hall-pictures", {"places": {"P1": ["1", "2"]}}),
        ("bathroom-joist", {"holes": [{"x": 1, "y": 1, "diameter": -5}], "notches": []}),
        ("bathroom-joist", {"holes": [], "notches": [], "walls": []}),
    ],
)
def test_what_no_pad_would_send_is_not_kept(name: str, value: object, tmp_path: Path) -> None:
    opened = Sheet.from_bank(name, folder=tmp_path)
    opened.pad.set_state({"answer": value})
    assert opened.pad.problem.startswith("This change was not kept: ")
    assert opened.answer == {}
    assert not (tmp_path / "answers").exists()
