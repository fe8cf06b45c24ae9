"""The whole way of a trainee in JupyterLab: draw, set, check, read, save, come back."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.driving import (
    click_wall,
    from_menu,
    open_notebook,
    open_sheet,
    press,
    restart_kernel,
    run_cell,
    save_notebook,
    saved_words,
)  # fmt: skip
from tests.browser.lab import Lab
from tests.browser.notebooks import saved_outputs
from zonelib.exercise.answer import MIME

pytestmark = pytest.mark.browser

Lay = Callable[[str, str], str]
EXERCISE = "kitchen-hatch"
SHOTS = Path("test-results")


def record(lab: Lab, folder: str) -> dict[str, object]:
    text = (lab.folder / folder / "answers" / f"{EXERCISE}.json").read_text(encoding="utf-8")
    data: dict[str, object] = json.loads(text)
    return data


def draw(page: Page) -> None:
    """From the ceiling along the top and down beside the hatch, then across to the socket."""
    click_wall(page, (1000, 2300), (1565, 2300), (1565, 950), (2200, 950))
    saved_words(page, "Saved")


def test_draw_set_check_read_save_restart_and_find_it_again(lab: Lab, page: Page, homework: Lay) -> None:
    name = homework(EXERCISE, "whole")
    open_notebook(page, lab.page_of(name))
    sheet = open_sheet(page)
    expect(sheet.locator(".zl-surface .zone")).to_have_count(0)  # a picture before a check gives nothing away
    draw(page)
    page.get_by_label("Depth of leg 3 in mm").fill("12")
    page.get_by_label("Depth of leg 3 in mm").press("Tab")
    press(page, "Check")
    panel = page.locator(".zl-panel")
    panel.locator(".zl-score").wait_for()
    expect(panel).to_contain_text("Outside the zones.")
    expect(panel).to_contain_text("12 mm below")
    expect(panel).to_contain_text("Local codes and a licensed electrician decide.")
    expect(page.locator(".zl-stretch")).not_to_have_count(0)
    SHOTS.mkdir(exist_ok=True)
    panel.screenshot(path=SHOTS / "panel.png")
    page.locator(".zl-pad").screenshot(path=SHOTS / "pad.png")

    panel.locator("button.zl-said").first.focus()
    expect(page.locator(".zl-stretch.zl-lit")).to_have_count(1)

    page.get_by_label("Covering of leg 3").select_option("earthed-steel-conduit")
    page.get_by_label("Depth of leg 3 in mm").fill("15")
    page.get_by_label("Depth of leg 3 in mm").press("Tab")
    page.get_by_label("Rating").select_option("30")
    expect(panel).to_contain_text("Your answer has changed since this check.")
    press(page, "Check")
    expect(panel.locator(".zl-score")).to_contain_text("12 of 12 marks")
    drawn = record(lab, "whole")["answer"]

    save_notebook(page)
    mirrored = [data[MIME] for data in saved_outputs(lab.folder / name) if MIME in data]
    assert [one["answer"] for one in mirrored] == [drawn]

    restart_kernel(page)
    page.goto("about:blank")
    open_notebook(page, lab.page_of(name))
    open_sheet(page)
    saved_words(page, "Your answer is back")
    expect(page.locator(".zl-handle")).to_have_count(5)
    expect(page.get_by_label("Covering of leg 3")).to_have_value("earthed-steel-conduit")
    assert record(lab, "whole")["answer"] == drawn
    run_cell(page, 1)
    expect(page.locator(".zl-report .zl-score")).to_contain_text("12 of 12 marks")
    page.locator(".zl-report").screenshot(path=SHOTS / "grade.png")


def test_a_notebook_that_is_not_running_shows_picture_and_words(lab: Lab, page: Page, homework: Lay) -> None:
    name = homework(EXERCISE, "still")
    open_notebook(page, lab.page_of(name))
    open_sheet(page)
    draw(page)
    expect(page.locator(".jp-OutputArea-child").first).to_be_hidden()  # live, the still part gives way
    save_notebook(page)
    from_menu(page, "Kernel", "Shut Down Kernel")
    page.goto("about:blank")
    open_notebook(page, lab.page_of(name))
    expect(page.locator(".zl-still")).to_contain_text("Run this cell to draw your answer")
    expect(page.locator(".jp-OutputArea-output img").first).to_be_visible()
    page.wait_for_timeout(1500)  # long enough for a widget without a kernel to complain
    expect(page.get_by_text("Error displaying widget")).to_be_hidden()
    SHOTS.mkdir(exist_ok=True)
    page.screenshot(path=SHOTS / "still.png")


def test_a_notebook_from_someone_else_shows_picture_and_words(lab: Lab, page: Page, homework: Lay) -> None:
    name = homework(EXERCISE, "own")
    open_notebook(page, lab.page_of(name))
    open_sheet(page)
    save_notebook(page)
    data = json.loads((lab.folder / name).read_text(encoding="utf-8"))
    data["cells"][0]["source"] += "\n# signed by nobody here"
    (lab.folder / "own" / "other.ipynb").write_text(json.dumps(data), encoding="utf-8")
    page.goto("about:blank")
    open_notebook(page, lab.page_of("own/other.ipynb"))
    expect(page.locator(".zl-still, .jp-OutputArea-output").first).to_contain_text("Run this cell to draw")
    expect(page.locator(".jp-OutputArea-output img").first).to_be_visible()
    expect(page.get_by_text("Error displaying widget")).to_have_count(0)


def test_hints_come_one_at_a_time_and_handing_in_tells_where(lab: Lab, page: Page, homework: Lay) -> None:
    name = homework(EXERCISE, "hand")
    open_notebook(page, lab.page_of(name))
    open_sheet(page)
    press(page, "Hint")
    expect(page.locator(".zl-hints li")).to_have_count(1)
    press(page, "Hint")
    expect(page.locator(".zl-hints li")).to_have_count(2)
    press(page, "Hand in")
    expect(page.locator(".zl-note")).to_contain_text("Type your candidate number first")
    page.get_by_label("Candidate number").fill("C-014")
    press(page, "Hand in")
    expect(page.locator(".zl-note")).to_contain_text("There is no saved answer to hand in yet")
    draw(page)
    press(page, "Hand in")
    expect(page.locator(".zl-note").first).to_contain_text("Handed in at")
    (handed,) = (lab.folder / "hand").glob("hand-in-*.json")
    assert json.loads(handed.read_text(encoding="utf-8"))["candidate"] == "C-014"
    expect(page.locator(".zl-note").first).to_contain_text(handed.name)
