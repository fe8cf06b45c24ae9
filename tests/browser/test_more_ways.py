"""Forms, given cables, rooms and inspections in JupyterLab by keyboard alone and by numbers alone."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Lab
from tests.browser.driving import open_notebook, saved_words
from tests.browser.test_more_kinds import opened

pytestmark = pytest.mark.browser

Lay = Callable[[str, str], str]


def press(page: Page, *keys: str) -> None:
    for key in keys:
        page.keyboard.press(key)


def choose(page: Page) -> None:
    page.get_by_role("checkbox", name="F2:").focus()
    press(page, "Space")


def number(page: Page) -> None:
    page.get_by_label("Your number in mm").focus()
    page.keyboard.type("105")
    press(page, "Enter")


def protect(page: Page) -> None:
    page.get_by_label("Depth of leg 1 in mm").focus()
    press(page, "Control+a")
    page.keyboard.type("25")
    press(page, "Tab", "ArrowDown")


def room(page: Page) -> None:
    page.locator(".zl-surface").focus()
    press(page, "PageDown", *["Shift+ArrowUp"] * 24, "Enter", *["Shift+ArrowLeft"] * 4, "Enter")
    page.get_by_label("Way of leg 2").focus()
    press(page, "ArrowDown")


def inspect(page: Page) -> None:
    page.locator(".zl-surface").focus()
    press(page, "PageDown", "e", "Enter", "e", "e", "e", "Enter")


def mark_by_numbers(page: Page) -> None:
    page.get_by_label("Cable", exact=True).select_option("R2")
    page.get_by_label("New mark, from").fill("440")
    page.get_by_label("New mark, to").fill("1560")
    page.get_by_role("button", name="Mark this stretch").click()


def points_by_numbers(page: Page) -> None:
    page.get_by_role("button", name="Points as a table").click()
    page.get_by_label("New point, above the floor in mm").fill("2400")
    page.get_by_role("button", name="Add point").click()


SAID = {"clause": None, "remedy": None, "why": None}
Way = tuple[str, Callable[[Page], None], dict[str, Any]]

WAYS: list[Way] = [
    ("landing-which-screws", choose, {"chosen": ["F2"]}),
    ("bedroom-how-far-out", number, {"value": "105"}),
    ("store-given-run", protect, {"depth": [25, 15], "protection": ["plastic-conduit", "none"]}),
    (
        "bedroom-over-the-ceiling", room,
        {"points": [[13200, 1200], [13200, 2400], [13000, 2400]], "via": ["wall", "ceiling-void"]},
    ),
    ("dining-inspection", inspect, {"stretches": [{"route": "R2", "from": 400, "to": 1600, **SAID}]}),
    ("dining-inspection", mark_by_numbers, {"stretches": [{"route": "R2", "from": 440, "to": 1560, **SAID}]}),
    ("bedroom-over-the-ceiling", points_by_numbers, {"points": [[13200, 1200], [13200, 2400]]}),
]  # fmt: skip


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way[1].__name__)
def test_an_exercise_is_answered_without_a_mouse_on_its_drawing(
    lab: Lab, page: Page, homework: Lay, way: Way
) -> None:
    exercise, answered, wanted = way
    folder = f"way-{answered.__name__}"
    open_notebook(page, lab.page_of(homework(exercise, folder)))
    opened(page)
    answered(page)
    saved_words(page, "Saved")
    page.wait_for_timeout(800)  # the last of several changes is on its way
    file = lab.folder / folder / "answers" / f"{exercise}.json"
    kept = json.loads(file.read_text(encoding="utf-8"))["answer"]
    assert {part: kept[part] for part in wanted} == wanted
