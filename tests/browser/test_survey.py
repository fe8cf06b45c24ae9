"""A small room typed into the survey in JupyterLab, as one stands in it with a tape, until it is drawn."""

import json
import os
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.driving import fill, open_notebook, run_cell
from tests.browser.lab import Lab
from tests.browser.notebooks import notebook
from zonelib.rules.load import read_case

pytestmark = pytest.mark.browser

SHOTS = os.environ.get("ZONELIB_SHOTS")  # a folder, for one who wants to look


def shot(page: Page, name: str) -> None:
    if SHOTS:
        page.set_viewport_size(
            {"width": page.viewport_size["width"] if page.viewport_size else 1280, "height": 2600}
        )
        page.wait_for_timeout(400)
        page.screenshot(path=Path(SHOTS) / f"{name}.png")


def step(page: Page, words: str) -> None:
    page.locator(".zl-steps button", has_text=words).click()
    expect(page.locator(".zl-steps button.mod-active")).to_contain_text(words)


def told(page: Page, words: str) -> None:
    expect(page.locator(".zl-survey [role=status]").filter(has_text=words).first).to_be_visible()


def test_a_room_is_typed_in_and_drawn_with_where_not_to_drill(lab: Lab, page: Page) -> None:
    folder = lab.folder / "survey"
    folder.mkdir()
    made = notebook("from zonelib.sheet import survey\nsurvey()")
    (folder / "survey.ipynb").write_text(json.dumps(made), encoding="utf-8")
    open_notebook(page, lab.page_of("survey/survey.ipynb"))
    run_cell(page)
    page.locator(".zl-survey").wait_for()
    page.get_by_label("Name of the room").fill("box-room")
    page.get_by_role("button", name="Open this room").click()
    told(page, "box-room is open.")

    fill(page, "Height, floor to ceiling [mm]", "24oo")
    told(page, 'Found "24oo". Allowed: a number.')
    shot(page, "room-at-fault")
    fill(page, "Height, floor to ceiling [mm]", "2400")
    fill(page, "Thickness of the walls, from finished surface to finished surface [mm]", "100")
    page.get_by_label("How most walls are built").select_option(label="timber stud")

    step(page, "2 Plan")
    for number, length in enumerate(("2000", "3000", "2000", "2600"), start=1):
        page.get_by_role("button", name="Add the next wall").click()
        expect(page.get_by_label("Wall", exact=True).locator("option:checked")).to_contain_text(
            f"Wall {number}:"
        )
        fill(page, "Length of this wall [mm]", length)
        expect(page.get_by_label("Wall", exact=True).locator("option:checked")).to_contain_text(" mm")
    told(page, "the plan is 400 mm from where it began: 400 mm to the left and 0 mm down the page.")
    shot(page, "plan-open")
    fill(page, "Length of this wall [mm]", "3000")
    told(page, "The plan closes with 4 walls.")
    expect(page.locator(".zl-survey svg.zl-picture")).to_have_count(1)

    step(page, "5 Sockets")
    page.get_by_role("button", name="Add it to this wall").click()
    for label, value in (
        ("From the wall's left end to its middle [mm]", "800"), ("From the floor to its middle [mm]", "450"),
        ("Its width [mm]", "146"), ("Its height [mm]", "86"),
    ):  # fmt: skip
        fill(page, label, value)
    expect(page.locator(".zl-survey svg.zl-picture")).to_contain_text("S1 socket")
    expect(page.locator(".zl-survey .zl-drill li").first).to_be_visible()
    shot(page, "drawn")
    page.keyboard.press("Control+b")  # the list of files, which a narrow window has no room for
    page.set_viewport_size({"width": 390, "height": 2600})
    shot(page, "drawn-narrow")
    expect(page.locator(".zl-survey")).to_be_visible()
    case = read_case(folder / "rooms" / "box-room.toml")
    assert [wall.length for wall in case.walls] == [2000, 3000, 2000, 3000]
    assert [one.id for wall in case.walls for one in wall.accessories] == ["S1"]
