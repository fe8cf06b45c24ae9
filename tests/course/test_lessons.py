"""Each lesson has its form, reads well before it is run, and its links lead somewhere."""

import json
import re
from pathlib import Path

import nbformat
import pytest

from tests.course.lessons import PATHS, called, code, parts_of, prose, read, shown, source
from tests.house.files import ROOT
from zonelib.exercise.load import bank_names
from zonelib.rules.pack import load_pack

HEADINGS = ["A question first", "A mistake to explain", "Your turn", "What you can do now", "The clauses met"]
WIDGET = "application/vnd.jupyter.widget-view+json"
each_lesson = pytest.mark.parametrize("path", [pytest.param(path, id=path.stem) for path in PATHS])


def test_the_lessons_are_numbered_without_a_gap() -> None:
    assert [int(path.name[:2]) for path in PATHS] == list(range(14))


@each_lesson
def test_it_begins_with_how_to_start_and_what_you_will_be_able_to_do(path: Path) -> None:
    nbformat.validate(read(path))
    title, start, _after, goals, time = source(read(path)["cells"][0]).split("\n\n")
    assert title.startswith(f"# {int(path.name[:2])}. ")
    assert start == "**To start:** choose Run → Run All Cells in the menu."
    assert re.findall(r"^(\d)\. ", goals, re.MULTILINE) == ["1", "2", "3"]
    minutes = re.match(r"It takes about (\d+) minutes\. You never have to type or change any code\.$", time)
    assert minutes
    assert 15 <= int(minutes[1]) <= 30 or path.name.startswith("00")


@each_lesson
def test_it_has_the_form_of_a_lesson(path: Path) -> None:
    found = re.findall(r"^## (.*)$", prose(read(path)), re.MULTILINE)
    assert [one for one in found if one in HEADINGS] == HEADINGS


@each_lesson
def test_it_asks_shows_something_to_change_explains_and_practises(path: Path) -> None:
    lesson, parts = read(path), parts_of(path)
    assert called(lesson, "ask") == [f'"{name}"' for name in parts["questions"]]
    assert called(lesson, "live") == [f'"{name}"' for name in parts["live"]]
    assert len(parts["questions"]) >= 1
    assert len(parts["live"]) >= 1
    assert called(lesson, "explain")
    practised = re.findall(r'Sheet\.from_bank\("([\w-]+)"\)', "\n".join(map(source, code(lesson))))
    assert practised
    assert [name for name in practised if name not in bank_names()] == []


@each_lesson
def test_a_question_comes_before_anything_is_told(path: Path) -> None:
    cells = read(path)["cells"]
    ids = [cell["id"] for cell in cells]
    asking = next(n for n, cell in enumerate(cells) if "lesson.ask(" in source(cell))
    assert asking - ids.index("question") <= 2


@each_lesson
def test_its_cells_are_short_and_were_run_in_order(path: Path) -> None:
    cells = code(read(path))
    assert [cell["execution_count"] for cell in cells] == list(range(1, len(cells) + 1))
    first, *others = [source(cell) for cell in cells]
    assert first == f'from zonelib.sheet import Lesson, Sheet\n\nlesson = Lesson("{path.stem}")'
    assert [one for one in others if "\n" in one] == []
    assert {output["output_type"] for cell in cells for output in cell["outputs"]} == {"display_data"}


@each_lesson
def test_its_pictures_are_there_before_it_is_run_and_each_is_told_in_words(path: Path) -> None:
    pictures = [cell for cell in code(read(path)) if shown(cell, "image/png")]
    assert len(pictures) >= 2
    assert [cell["id"] for cell in pictures if "Sheet" not in source(cell) and not told(cell)] == []


def told(cell: dict[str, object]) -> bool:
    return any("This picture in words" in html and len(html) > 150 for html in shown(cell, "text/html"))


@each_lesson
def test_it_stores_no_widget_no_state_and_no_place_of_a_machine(path: Path) -> None:
    lesson = read(path)
    assert "widgets" not in lesson["metadata"]
    assert [cell["id"] for cell in code(lesson) if shown(cell, WIDGET)] == []
    assert "/tm" + "p/" not in json.dumps(lesson)
    assert path.stat().st_size < 700_000


@each_lesson
def test_it_shows_the_packs_safety_words_in_one_box(path: Path) -> None:
    told = [text for cell in code(read(path)) for text in shown(cell, "text/markdown")]
    boxes = [text for text in told if "**Safety.**" in text]
    assert len(boxes) == 1
    words = load_pack("uk").safety
    assert [line for line in (words.aid, words.lay, *words.drill) if line not in boxes[0]] == []


@each_lesson
def test_what_its_cells_say_is_compared_with_the_engine(path: Path) -> None:
    cells = code(read(path))[1:]
    compared = [cell["id"] for cell in cells if "nbval-check-output" in cell["metadata"].get("tags", [])]
    assert compared == [cell["id"] for cell in cells if "Sheet" not in source(cell)]


@each_lesson
def test_its_links_lead_to_the_lesson_before_the_next_one_and_the_start(path: Path) -> None:
    links = re.findall(r"\]\(([^)]+)\)", source(read(path)["cells"][-1]))
    place = PATHS.index(path)
    beside = [*PATHS[max(place - 1, 0) : place], *PATHS[place + 1 : place + 2]]
    assert links == [*(one.name for one in beside), "start.ipynb", "glossary.ipynb"]


@each_lesson
def test_its_links_lead_somewhere(path: Path) -> None:
    links = re.findall(r"\]\(([^)]+)\)", prose(read(path)))
    assert [link for link in links if not (ROOT / "lessons" / link).is_file()] == []
