"""A route round a room on the sheet: what the pad is given, and stretches that go over the end of the row."""

from pathlib import Path

import pytest

from zonelib.sheet import Sheet, SheetTrouble

ROOM = "bedroom-over-the-ceiling"


@pytest.fixture
def sheet(tmp_path: Path) -> Sheet:
    return Sheet.from_bank(ROOM, folder=tmp_path)


def test_the_pad_is_given_the_walls_in_a_row_and_one_picture(sheet: Sheet) -> None:
    task = sheet.pad.task
    assert [(one["id"], one["start"]) for one in task["walls"]][:3] == [
        ("bed.1", 0), ("bed.2", 3400), ("bed.3", 7600),
    ]  # fmt: skip
    assert task["wall"]["length"] == sum(one["length"] for one in task["walls"]) == 15900
    assert list(task["pictures"]) == ["front"]
    assert {k: v for k, v in task["accessories"][-1].items() if k in ("id", "x")} == {"id": "SW1", "x": 13200}


def test_stretches_lie_in_the_row_each_on_one_wall_even_over_its_end(sheet: Sheet) -> None:
    sheet.set(points=[[13200, 1200], [16400, 1500]])
    sheet.check()
    found = sheet.pad.result["stretches"]
    ends = [(one["points"][0][0], one["points"][-1][0]) for one in found]
    assert [one for one in ends if max(one) <= 500]
    assert [one for one in ends if min(one) > 13200 and max(one) < 15900]
    assert len(ends) == len([one for one in ends if max(one) <= 500 or min(one) >= 11700])


def test_a_way_that_is_none_is_refused(sheet: Sheet) -> None:
    with pytest.raises(SheetTrouble, match="the way of leg 1 must be wall, ceiling-void, floor-void"):
        sheet.set(points=[[13200, 1200], [13200, 2400]], via=["tunnel"])
