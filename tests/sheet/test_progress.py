"""The record beside the notebook: written at each check, never in the way of an answer, hostile when read."""

import errno
import json
import os
from pathlib import Path

import pytest

from tests.exercise.answers import bundle, exercise
from zonelib.sheet import Sheet
from zonelib.sheet.progress import FILE, history

NAME, OTHER = "bedroom-drop", "kitchen-hatch"


def opened(folder: Path) -> Sheet:
    return Sheet(NAME, folder=folder, bundle=bundle(NAME))


def checks(folder: Path) -> list[dict[str, object]]:
    found: list[dict[str, object]] = json.loads((folder / FILE).read_text(encoding="utf-8"))["checks"]
    return found


def test_each_check_leaves_what_it_showed_of_each_rule(tmp_path: Path) -> None:
    sheet = opened(tmp_path)
    sheet.set(points=[[700, 2400], [1250, 450]])
    sheet.check()
    sheet.hint()
    sheet.set(**exercise(NAME).model)
    sheet.check()
    first, second = checks(tmp_path)
    assert first["exercise"] == second["exercise"] == NAME
    assert first["rules"] != second["rules"] == {"wall-zone": 1.0, "route-joins": 1.0}
    assert (first["hints"], second["hints"]) == (0, 1)
    assert set(first) == {"at", "exercise", "variant", "hints", "rules"}, "no name and no number of a person"


def test_nothing_is_written_before_a_check_or_for_an_empty_answer(tmp_path: Path) -> None:
    sheet = opened(tmp_path)
    sheet.check()
    sheet.set(**exercise(NAME).model)
    assert not (tmp_path / FILE).exists()


@pytest.mark.parametrize(
    "text", ["", "{", '{"schema": 1, "checks": [{"at": 7}]}', "[" * 9999, "\x00" * 5_000_000]
)
def test_what_is_no_record_is_kept_aside_and_a_new_one_begun(tmp_path: Path, text: str) -> None:
    (tmp_path / FILE).write_text(text, encoding="utf-8")
    record, notes = history([tmp_path])
    assert record.checks == ()
    assert "could not be read" in notes[0]
    sheet = opened(tmp_path)
    sheet.set(**exercise(NAME).model)
    sheet.check()
    assert sheet.panel.view["score"] == "10 of 10 marks"
    assert len(checks(tmp_path)) == 1
    kept = list((tmp_path / "answers" / ".kept").glob("progress-*.json"))
    assert [one.read_text(encoding="utf-8") for one in kept] == [text]


WAITS = "The record of your practice cannot be written now."


def full(_handle: int) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_where_it_cannot_be_written_the_check_goes_on_and_none_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet = opened(tmp_path)
    sheet.set(points=[[700, 2400], [1250, 450]])
    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", full)
        sheet.check()
        sheet.check()
        assert sheet.panel.view["score"]
        assert sheet.panel.view["notes"][0].startswith(WAITS)
        assert WAITS in sheet.panel.view["said"]
        assert not (tmp_path / FILE).exists()
    sheet.set(**exercise(NAME).model)
    assert len(checks(tmp_path)) == 2, "the next save that works writes what waited"
    sheet.check()
    assert len(checks(tmp_path)) == 3
    assert WAITS not in " ".join(sheet.panel.view["notes"])


def test_what_waits_is_written_by_any_sheet_of_the_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, other = opened(tmp_path), Sheet(OTHER, folder=tmp_path, bundle=bundle(OTHER))
    one.set(**exercise(NAME).model)
    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", full)
        one.check()
    other.set(**exercise(OTHER).model)
    other.check()
    assert [check["exercise"] for check in checks(tmp_path)] == [NAME, OTHER]


def test_a_folder_that_never_takes_the_record_costs_no_check(tmp_path: Path) -> None:
    (tmp_path / FILE).mkdir()
    sheet = opened(tmp_path)
    sheet.set(**exercise(NAME).model)
    sheet.check()
    assert sheet.panel.view["score"] == "10 of 10 marks"
    assert sheet.pad.problem == ""
    assert sheet.panel.view["notes"][0].startswith(WAITS)
    (tmp_path / FILE).rmdir()
    sheet.check()
    assert len(checks(tmp_path)) == 2


def test_a_line_of_the_attempts_that_could_not_be_written_comes_with_the_next(tmp_path: Path) -> None:
    sheet = opened(tmp_path)
    sheet.set(**exercise(NAME).model)
    lines = tmp_path / "answers" / ".kept" / f"attempts-{NAME}.csv"
    lines.mkdir()
    sheet.check()
    assert sheet.panel.view["notes"][0].startswith(WAITS)
    lines.rmdir()
    sheet.check()
    assert len(lines.read_text(encoding="utf-8").splitlines()) == 3


def test_records_of_several_folders_are_one_and_a_folder_without_is_no_trouble(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        sheet = opened(tmp_path / name)
        sheet.set(**exercise(NAME).model)
        sheet.check()
    record, notes = history([tmp_path / "one", tmp_path / "two", tmp_path / "three", tmp_path / "one"])
    assert notes == ()
    assert 1 <= len(record.checks) <= 2  # two of the same second are the same to the record


def test_the_panel_tells_the_idea_that_an_answer_fits_and_keeps_the_mark(tmp_path: Path) -> None:
    name = "bedroom-zones"
    sheet = Sheet(name, folder=tmp_path, bundle=bundle(name))
    sheet.set(**exercise(name).wrong[2]["answer"])
    sheet.check()
    (note,) = sheet.panel.view["notes"]
    assert note.startswith("Your answer fits this idea: A zone runs along the floor. What holds instead: ")
    assert sheet.panel.view["said"].endswith(note)
    assert sheet.panel.view["score"].startswith(f"{round(sheet.result().score, 2):g} of 10")
    sheet.set(**exercise(name).model)
    sheet.check()
    assert sheet.panel.view["notes"] == []
