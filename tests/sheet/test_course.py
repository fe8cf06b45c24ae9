"""A course's sign-off and readings in a notebook: a practice sheet, and the cells of a lesson."""

import shutil
from pathlib import Path
from typing import Any

import pytest

from tests.house.files import ROOT
from zonelib.sheet import Lesson, Sheet, SheetTrouble
from zonelib.sheet.lesson import page

SIGNED = "BS 7671:2018+A2:2022, checked against the book by the course leader on 20 November 2026"
COURSE = """schema = 1
[[packs]]
pack = "uk"
readings = { blank_plates = "no" }
checked = { edition = "BS 7671:2018+A2:2022", by = "the course leader", on = 2026-11-20 }
"""


@pytest.fixture
def notebook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of a notebook, one below that of its course."""
    (tmp_path / "course.toml").write_text(COURSE, encoding="utf-8")
    for part in ("parts", "walls"):
        shutil.copytree(ROOT / "lessons" / part, tmp_path / "lessons" / part)
    monkeypatch.chdir(tmp_path / "lessons")
    monkeypatch.delenv("JPY_SESSION_NAME", raising=False)
    return tmp_path / "lessons"


def told(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    shown: list[dict[str, Any]] = []
    monkeypatch.setattr(page, "show", shown.append)
    Lesson("01-reading-a-wall").clauses()
    return shown


def test_a_practice_sheet_takes_the_course_of_its_folder(notebook: Path) -> None:
    bundle = Sheet.from_bank("bedroom-drop", folder=notebook).bundle
    assert bundle.pack.stated_edition == SIGNED
    assert bundle.case.readings == {"blank_plates": "no"}


def test_a_lesson_says_who_checked_its_clauses(notebook: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert notebook.is_dir()
    assert SIGNED in str(told(monkeypatch))


def test_a_broken_course_is_told_in_a_notebook_without_a_traceback_of_ours(
    notebook: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (notebook.parent / "course.toml").write_text(COURSE.replace("A2:2022", "A1:2020"), encoding="utf-8")
    for act in (lambda: Sheet.from_bank("bedroom-drop", folder=notebook), lambda: told(monkeypatch)):
        with pytest.raises(SheetTrouble, match="a sign-off of another edition does not count"):
            act()
