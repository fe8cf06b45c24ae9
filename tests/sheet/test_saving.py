"""An answer is saved whole or not at all, and nothing is ever lost or deleted."""

import errno
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from zonelib.exercise import Bundle
from zonelib.exercise.answer import read_record
from zonelib.exercise.model import Exercise
from zonelib.sheet import Sheet, SheetTrouble
from zonelib.sheet.saving import AnswerFile
from zonelib.sheet.trouble import SaveTrouble

Open = Callable[[], Sheet]
Parts = dict[str, Any]
DRAWN: Parts = {"points": [[1000, 2400], [1000, 2300]], "depth": [15], "protection": ["none"], "rcd": None}
LONGER: Parts = {
    "points": [[1000, 2400], [1000, 2300], [1500, 2300]],
    "depth": [15, 15],
    "protection": ["none", "none"],
    "rcd": None,
}
BROKEN = {
    "empty": "",
    "cut": "{",
    "list": "[]",
    "bare": '{"schema": 1}',
    "bytes": "\x00\x01",
    "newer": '{"schema": 2, "exercise": "kitchen-hatch"}',
    "deep": "[" * 10_000,
    "long": "x" * 300_000,
}


def draw(sheet: Sheet, answer: Parts) -> None:
    """Set what the browser sends when a person has drawn."""
    sheet.pad.set_state({"answer": answer})


def saved(folder: Path) -> Parts:
    data: Parts = json.loads((folder / "answers" / "kitchen-hatch.json").read_text(encoding="utf-8"))
    return data


def lay(folder: Path, text: str) -> None:
    (folder / "answers").mkdir(exist_ok=True)
    (folder / "answers" / "kitchen-hatch.json").write_text(text, encoding="utf-8")


def kept(folder: Path) -> list[Path]:
    return sorted((folder / "answers" / ".kept").glob("*.json"))


def hold_files(monkeypatch: pytest.MonkeyPatch, times: int) -> list[int]:
    """Refuse to put a file in place some times, as where another program holds it; return the tries."""
    tries: list[int] = []
    real = os.replace

    def replace(source: Any, target: Any, **rest: Any) -> None:
        tries.append(1)
        if len(tries) <= times:
            raise OSError(errno.EACCES, "held", str(source), None, str(target))
        real(source, target, **rest)

    monkeypatch.setattr(os, "replace", replace)
    monkeypatch.setattr("time.sleep", lambda _seconds: None)
    return tries


def test_each_change_is_saved_at_once_as_the_next_revision(sheet: Open, folder: Path, bundle: Bundle) -> None:
    opened = sheet()
    draw(opened, DRAWN)
    draw(opened, LONGER)
    data = saved(folder)
    assert (data["revision"], data["exercise"], data["bundle"]) == (2, "kitchen-hatch", bundle.hash)
    assert data["answer"] == LONGER
    assert read_record(json.dumps(data)).revision == 2
    assert opened.pad.saved.startswith("Saved ")
    assert opened.pad.problem == ""


def test_opening_again_brings_the_drawing_back_and_goes_on_counting(sheet: Open, folder: Path) -> None:
    draw(sheet(), DRAWN)
    again = sheet()
    assert again.answer == DRAWN
    assert "Your answer is back" in again.pad.saved
    assert saved(folder)["revision"] == 1  # opening is no change
    draw(again, LONGER)
    assert saved(folder)["revision"] == 2


def test_only_the_answer_lies_among_the_answers(sheet: Open, folder: Path) -> None:
    opened = sheet()
    draw(opened, LONGER)
    opened.check()
    files = [path.name for path in (folder / "answers").iterdir() if path.is_file()]
    assert files == ["kitchen-hatch.json"]


def test_a_file_held_for_a_moment_is_tried_again(
    sheet: Open, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = sheet()
    tries = hold_files(monkeypatch, times=2)
    draw(opened, DRAWN)
    assert len(tries) == 3
    assert saved(folder)["answer"] == DRAWN
    assert opened.pad.problem == ""


def test_a_file_held_for_good_is_told_and_the_drawing_stays(
    sheet: Open, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = sheet()
    draw(opened, DRAWN)
    hold_files(monkeypatch, times=99)
    draw(opened, LONGER)
    assert "another program is holding the file" in opened.pad.problem
    assert "Your answer is still here" in opened.pad.problem
    assert opened.pad.saved == ""
    assert opened.answer == LONGER
    assert saved(folder)["answer"] == DRAWN
    assert not list((folder / "answers" / ".kept").glob("*.part"))


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EROFS, "cannot be written to"),
        (errno.EIO, "the system says"),
    ],
)
def test_a_disk_that_takes_nothing_is_told_and_saving_again_works(
    sheet: Open, folder: Path, monkeypatch: pytest.MonkeyPatch, code: int, words: str
) -> None:
    opened = sheet()

    def refuse(_handle: int) -> None:
        raise OSError(code, os.strerror(code))

    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", refuse)
        draw(opened, DRAWN)
        assert words in opened.pad.problem
        assert not (folder / "answers" / "kitchen-hatch.json").exists()
    opened._save_again()
    assert opened.pad.problem == ""
    assert saved(folder)["answer"] == DRAWN


def test_a_folder_that_cannot_be_made_is_told(sheet: Open, folder: Path) -> None:
    opened = sheet()
    (folder / "answers").write_text("a file where the folder should be", encoding="utf-8")
    draw(opened, DRAWN)
    assert opened.pad.problem.startswith("Not saved: ")


def test_a_save_that_dies_half_way_leaves_the_old_file_whole(
    bundle: Bundle, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = AnswerFile(folder, bundle)
    file.save(DRAWN, candidate="")
    before = file.path.read_bytes()

    def die(_handle: int) -> None:
        raise KeyboardInterrupt("stopped here")

    monkeypatch.setattr(os, "fsync", die)
    with pytest.raises(KeyboardInterrupt, match="stopped here"):
        file.save(LONGER, candidate="")
    assert file.path.read_bytes() == before


def test_of_two_windows_the_later_revision_wins_and_the_other_is_told(sheet: Open, folder: Path) -> None:
    first, second = sheet(), sheet()
    draw(first, DRAWN)
    draw(second, LONGER)
    assert "changed in another window" in second.pad.problem
    assert saved(folder)["answer"] == DRAWN
    assert second.answer == LONGER  # still in the browser
    second._take()
    assert (second.answer, second.pad.problem) == (DRAWN, "")


def test_the_other_window_may_keep_its_own_and_nothing_is_lost(sheet: Open, folder: Path) -> None:
    first, second = sheet(), sheet()
    draw(first, DRAWN)
    draw(second, LONGER)
    second._keep()
    assert (saved(folder)["answer"], saved(folder)["revision"]) == (LONGER, 2)
    (aside,) = kept(folder)
    assert json.loads(aside.read_text(encoding="utf-8"))["answer"] == DRAWN
    assert aside.name in second.panel.view["notes"][0]
    draw(first, {**DRAWN, "rcd": {"ma": 30, "at": "origin", "delayed": False}})
    assert "changed in another window" in first.pad.problem


def test_an_answer_to_another_version_is_kept_aside_with_a_note(sheet: Open, folder: Path) -> None:
    draw(sheet(), DRAWN)
    lay(folder, json.dumps({**saved(folder), "bundle": "0" * 64, "revision": 7}))
    opened = sheet()
    assert opened.answer == {}
    (aside,) = kept(folder)
    assert "The exercise has changed since your last answer." in opened.panel.view["notes"][0]
    assert aside.name in opened.panel.view["notes"][0]
    draw(opened, LONGER)
    assert saved(folder)["revision"] == 8  # the highest, wherever the old one turns up


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in BROKEN.items()])
def test_a_broken_file_is_kept_aside_with_a_note(sheet: Open, folder: Path, text: str) -> None:
    lay(folder, text)
    opened = sheet()
    assert opened.answer == {}
    assert "could not be read" in opened.panel.view["notes"][0]
    (aside,) = kept(folder)
    assert aside.read_text(encoding="utf-8") == text


def test_drafts_of_a_killed_kernel_are_swept_and_fresh_ones_left(sheet: Open, folder: Path) -> None:
    draw(sheet(), DRAWN)
    old, fresh = (folder / "answers" / ".kept" / name for name in ("a.part", "b.part"))
    old.touch()
    fresh.touch()
    os.utime(old, (0, 0))
    sheet()
    assert not old.exists()
    assert fresh.exists()


def test_broken_files_of_one_second_are_all_kept(sheet: Open, folder: Path) -> None:
    for text in ("one", "two", "three"):
        lay(folder, text)
        sheet()
    assert {path.read_text(encoding="utf-8") for path in kept(folder)} == {"one", "two", "three"}


def test_an_answer_that_the_pad_cannot_hold_is_kept_aside(sheet: Open, folder: Path) -> None:
    draw(sheet(), DRAWN)
    lay(folder, json.dumps({**saved(folder), "answer": {**DRAWN, "protection": ["unheard-of"]}}))
    opened = sheet()
    assert opened.answer == {}
    assert "could not be read" in opened.panel.view["notes"][0]
    assert len(kept(folder)) == 1


def test_saving_from_python_raises_what_a_person_would_be_told(
    sheet: Open, exercise: Exercise, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = sheet()
    hold_files(monkeypatch, times=99)
    with pytest.raises(SaveTrouble, match="another program is holding the file"):
        opened.set(**exercise.model)


def test_a_trouble_shows_its_words_and_no_traceback(folder: Path) -> None:
    with pytest.raises(SheetTrouble, match="Beside the notebook lie: kitchen-hatch") as caught:
        Sheet("kitchen-hach", folder=folder)
    assert caught.value._render_traceback_() == [str(caught.value)]
