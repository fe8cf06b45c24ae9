"""Each lesson has its form, reads well before it is run, and its links lead somewhere."""

import json
import re
from typing import Any

import nbformat
import pytest

from tests.house.files import ROOT
from zonelib.rules.pack import load_pack

LESSONS = sorted(ROOT.glob("lessons/*.ipynb"))
HEADINGS = ["A question first", "A mistake to explain", "Your turn", "What you can do now", "The clauses met"]
each_lesson = pytest.mark.parametrize("lesson", [json.loads(path.read_text("utf-8")) for path in LESSONS])
Lesson = dict[str, Any]


def prose(lesson: Lesson) -> str:
    return "\n\n".join("".join(c["source"]) for c in lesson["cells"] if c["cell_type"] == "markdown")


def code(lesson: Lesson) -> list[dict[str, Any]]:
    return [cell for cell in lesson["cells"] if cell["cell_type"] == "code"]


def shown(lesson: Lesson, kind: str) -> list[str]:
    outputs = [output for cell in code(lesson) for output in cell["outputs"]]
    return ["".join(output["data"][kind]) for output in outputs if kind in output.get("data", {})]


def test_there_is_a_lesson() -> None:
    assert [path.name for path in LESSONS] == ["01-reading-a-wall.ipynb"]


@each_lesson
def test_it_begins_with_how_to_start_and_what_you_will_be_able_to_do(lesson: Lesson) -> None:
    nbformat.validate(lesson)
    title, start, *_ = "".join(lesson["cells"][0]["source"]).split("\n\n")
    assert title.startswith("# ")
    assert start == "**To start:** choose Run → Run All Cells in the menu."
    assert len(re.findall(r"^\d\. ", "".join(lesson["cells"][0]["source"]), re.MULTILINE)) == 3


@each_lesson
def test_it_has_the_form_of_a_lesson(lesson: Lesson) -> None:
    found = re.findall(r"^## (.*)$", prose(lesson), re.MULTILINE)
    assert [one for one in found if one in HEADINGS] == HEADINGS


@each_lesson
def test_its_cells_are_short_and_were_run_in_order(lesson: Lesson) -> None:
    assert [cell["execution_count"] for cell in code(lesson)] == list(range(1, len(code(lesson)) + 1))
    assert [cell["source"] for cell in code(lesson) if len("".join(cell["source"]).splitlines()) > 3] == []
    kinds = {output["output_type"] for cell in code(lesson) for output in cell["outputs"]}
    assert kinds == {"display_data"}


@each_lesson
def test_its_pictures_are_there_before_it_is_run_and_each_is_told_in_words(lesson: Lesson) -> None:
    pictures = [c for c in code(lesson) if any("image/png" in o["data"] for o in c["outputs"])]
    assert len(pictures) >= 5
    silent = [cell["id"] for cell in pictures if not any("text/html" in o["data"] for o in cell["outputs"])]
    assert silent == []


@each_lesson
def test_it_stores_no_state_of_a_widget_and_no_place_of_a_machine(lesson: Lesson) -> None:
    assert "widgets" not in lesson["metadata"]
    assert "/tm" + "p/" not in json.dumps(lesson)


@each_lesson
def test_it_shows_the_packs_safety_words_in_one_box(lesson: Lesson) -> None:
    boxes = [text for text in shown(lesson, "text/markdown") if "**Safety.**" in text]
    assert len(boxes) == 1
    words = load_pack("uk").safety
    assert [line for line in (words.aid, words.lay, *words.drill) if line not in boxes[0]] == []


@each_lesson
def test_the_cells_that_matter_are_compared_with_the_engine(lesson: Lesson) -> None:
    compared = [c["id"] for c in code(lesson) if "nbval-check-output" in c["metadata"].get("tags", [])]
    told = [c["id"] for c in code(lesson) if any("text/markdown" in o["data"] for o in c["outputs"])]
    assert compared == told
    assert len(compared) >= 4


@each_lesson
def test_its_links_lead_somewhere(lesson: Lesson) -> None:
    links = re.findall(r"\]\(([^)]+)\)", prose(lesson))
    assert len(links) >= 2
    assert [link for link in links if not (ROOT / "lessons" / link).is_file()] == []
