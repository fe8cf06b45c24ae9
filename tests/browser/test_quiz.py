"""The practice quiz in JupyterLab: start, draw, run out of time, see the marks."""

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.driving import click_wall, open_notebook, press, run_cell
from tests.browser.lab import Lab
from tests.browser.notebooks import notebook

SHOTS = Path("test-results")
pytestmark = pytest.mark.browser

LONG = """from zonelib.sheet import PracticeQuiz
PracticeQuiz(["bedroom-drop", "bedroom-zones"], minutes=10)"""
SHORT = 'PracticeQuiz(["bedroom-zones"], minutes=0.05, name="short")'


def test_a_practice_quiz_to_its_end_by_button_and_by_clock(lab: Lab, page: Page) -> None:
    (lab.folder / "quiz").mkdir()
    (lab.folder / "quiz" / "quiz.ipynb").write_text(json.dumps(notebook(LONG, SHORT)), encoding="utf-8")
    open_notebook(page, lab.page_of("quiz/quiz.ipynb"))
    run_cell(page)
    page.get_by_text("Questions: 2. Time: 10 minutes.").wait_for()
    press(page, "Start")
    page.wait_for_selector(".zl-pad .zl-overlay")
    expect(page.locator(".zl-clock")).to_contain_text(" left")
    click_wall(page, (700, 450), (1250, 450))
    page.locator(".zl-saved", has_text="Saved ").wait_for()
    saved = json.loads((lab.folder / "quiz" / "practice-quiz" / "answers" / "bedroom-drop.json").read_text())
    assert len(saved["answer"]["points"]) == 3
    assert page.locator(".zl-report").count() == 0
    SHOTS.mkdir(exist_ok=True)
    page.locator(".zl-sheet").first.screenshot(path=SHOTS / "practice-quiz.png")
    press(page, "Finish")
    page.get_by_text("of 20 marks.").wait_for()
    run_cell(page, 1)
    page.get_by_text("Questions: 1. Time: 0.05 minutes.").wait_for()
    page.locator(".zl-sheet .jupyter-button", has_text="Start").last.click()
    page.get_by_text("0 of 10 marks.").first.wait_for()
