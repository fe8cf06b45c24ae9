"""Each lesson as an apprentice works it: run all, answer the question, move a slider, see no error."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.driving import from_menu, open_notebook
from tests.browser.lab import Lab
from tests.course.lessons import PATHS, code, parts_of, read
from tests.house.files import ROOT

pytestmark = pytest.mark.browser

FAULTS = "[data-mime-type='application/vnd.jupyter.error'], [data-mime-type='application/vnd.jupyter.stderr']"
SCROLLED = ".jp-WindowedPanel-outer"


@pytest.fixture(scope="session")
def course(lab: Lab) -> Path:
    """Lay the lessons out as they come from the repository, but never run: what is seen is of this run."""
    place = lab.folder / "lessons"
    shutil.copytree(ROOT / "lessons", place, ignore=shutil.ignore_patterns("answers", ".ipynb_checkpoints"))
    for path in place.glob("*.ipynb"):
        notebook = read(path)
        for cell in code(notebook):
            cell.update(outputs=[], execution_count=None)
        path.write_text(json.dumps(notebook), encoding="utf-8")
    return place


@pytest.fixture(scope="session")
def shown(lab: Lab, course: Path, context: BrowserContext) -> Iterator[Page]:
    """Return a page where one lesson is opened after another: JupyterLab's start costs more than theirs."""
    page = context.new_page()
    open_notebook(page, lab.page_of(f"{course.name}/{PATHS[0].name}"))
    yield page
    page.close()


def turn_to(page: Page, name: str) -> None:
    """Close what is open, and open another notebook by its path, as the menu File offers both."""
    page.keyboard.press("Control+s")
    page.locator(".jp-mod-dirty").wait_for(state="detached")
    from_menu(page, "File", "Close and Shut Down Notebook")
    page.locator(".jp-Dialog .jp-mod-accept").click()
    page.locator(".jp-Notebook").wait_for(state="detached")
    from_menu(page, "File", "Open from Path…")
    page.locator(".jp-Dialog input").fill(name)
    page.keyboard.press("Enter")
    page.wait_for_selector(".jp-Notebook .jp-CodeCell")
    page.get_by_text("| Idle").wait_for()


def run_all(page: Page, cells: int) -> None:
    """Run all cells from the menu, as a lesson's first words say, and wait for the last."""
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_text("Run All Cells", exact=True).click()
    seek(page, f".jp-InputPrompt >> text='[{cells}]:'").wait_for()


def seek(page: Page, what: str) -> Locator:
    """Scroll until a part of the notebook is there: JupyterLab lays out only what is near the window."""
    found, panel = page.locator(what).first, page.locator(SCROLLED).first
    for _ in range(60):
        if found.count():
            break
        at_end = panel.evaluate("e => e.scrollTop + e.clientHeight > e.scrollHeight - 4")
        panel.evaluate("(e, end) => e.scrollTo(0, end ? 0 : e.scrollTop + e.clientHeight / 2)", at_end)
        page.wait_for_timeout(250)
    found.scroll_into_view_if_needed()
    return found


def faults_seen(page: Page) -> int:
    """Return how many errors or warnings stand anywhere in the notebook."""
    panel, seen = page.locator(SCROLLED).first, 0
    panel.evaluate("e => e.scrollTo(0, 0)")
    while True:
        page.wait_for_timeout(120)
        seen += page.locator(FAULTS).count()
        if panel.evaluate("e => e.scrollTop + e.clientHeight > e.scrollHeight - 4"):
            return seen
        panel.evaluate("e => e.scrollBy(0, e.clientHeight * 0.8)")


@pytest.mark.parametrize("path", [pytest.param(path, id=path.stem) for path in PATHS])
def test_a_lesson_is_worked_without_touching_its_code(path: Path, course: Path, shown: Page) -> None:
    page = shown
    assert (course / path.name).is_file()
    turn_to(page, f"{course.name}/{path.name}")
    run_all(page, len(code(read(path))))
    assert faults_seen(page) == 0

    page.locator(SCROLLED).first.evaluate("e => e.scrollTo(0, 0)")
    question = next(iter(parts_of(path)["questions"].values()))
    right = next(n for n, choice in enumerate(question["choices"]) if choice.get("right"))
    seek(page, ".zl-choices .jupyter-button")
    page.locator(".zl-choices").first.locator(".jupyter-button").nth(right).click()
    asked = page.locator(".zl-lesson:has(.zl-choices)").first
    expect(asked).to_contain_text("Yes.")
    expect(asked).to_contain_text(question["choices"][right]["why"])

    handle = seek(page, ".zl-knobs .noUi-handle")
    live = page.locator(".zl-lesson:has(.zl-knobs)").first
    expect(live.locator("svg.zl-picture")).to_have_count(1)
    before = live.locator(".zl-page [role=status]").inner_text()
    handle.focus()
    handle.press("ArrowRight")
    expect(live.locator(".zl-page [role=status]")).not_to_have_text(before, use_inner_text=True)
    expect(live.locator("svg.zl-picture")).to_have_count(1)
