"""The start page: the lessons as they say themselves, three paths, and how far one has come."""

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from tests.course.lessons import PATHS, code, prose, read, shown, source
from tests.house.files import ROOT
from zonelib.sheet import start

LESSONS = ROOT / "lessons"
PAGE = LESSONS / "start.ipynb"
LINK = re.compile(r"\]\(([^)#]*)(?:#[^)]*)?\)")
BACK = ["survey.ipynb", "revision.ipynb", "glossary.ipynb"]
CHECK = {"at": "2026-11-20T10:00:00Z", "exercise": "hall-find-the-cable", "rules": {"wall-zone": 1.0}}


def test_its_list_is_what_the_lessons_say() -> None:
    listed = next(source(cell) for cell in read(PAGE)["cells"] if cell["id"] == "lessons")
    assert listed.partition("\n\n- ")[2] == start.list_of(LESSONS)[2:]
    assert [one.file for one in start.entries(LESSONS)] == [path.name for path in PATHS]


def test_there_is_a_path_for_each_who_comes() -> None:
    headings = re.findall(r"^## (.*)$", prose(read(PAGE)), re.MULTILINE)
    assert headings == ["I am learning", "I teach", "I run a centre", "Lessons", "How far you have come"]


def test_every_link_leads_to_a_file_that_is_there() -> None:
    links = [link for link in LINK.findall(prose(read(PAGE))) if link]
    assert len(links) > len(PATHS) + 10
    assert [link for link in links if not (LESSONS / link).is_file()] == []


@pytest.mark.parametrize("name", BACK)
def test_what_it_leads_to_leads_back(name: str) -> None:
    assert "start.ipynb" in LINK.findall(source(read(LESSONS / name)["cells"][-1]))


def test_it_reads_well_before_it_is_run() -> None:
    (cell,) = code(read(PAGE))
    assert shown(cell, "image/png")
    assert "Begin with lesson 0" in shown(cell, "text/markdown")[0]
    assert "widgets" not in read(PAGE)["metadata"]


def test_progress_counts_what_was_tried(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[dict[str, Any]] = []
    monkeypatch.setattr(start, "show", said.append)
    monkeypatch.setattr(start, "say", lambda words: said.append({"text/markdown": words}))
    shutil.copy(PATHS[0], tmp_path)
    (tmp_path / "progress.json").write_text(json.dumps({"schema": 1, "checks": [CHECK]}), encoding="utf-8")
    start.progress(tmp_path)
    assert "Where a cable is expected: not yet" in said[0]["text/plain"]
    tried = len(start.entries(tmp_path)[0].practice)
    assert f"- 0. Find the cable: 1 of {tried} exercises tried" in said[1]["text/markdown"]


@pytest.mark.parametrize("text", ["", "[]", '{"cells": [{"source": ["# 1. A title"]}]}', '{"cells": []}'])
def test_a_notebook_that_is_no_lesson_is_passed_over(tmp_path: Path, text: str) -> None:
    (tmp_path / "01-x.ipynb").write_text(text, encoding="utf-8")
    assert start.entries(tmp_path) == ()
