"""Zones, fixings and joists in JupyterLab by touch, by keyboard alone and by numbers alone."""

import json
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import PATIENCE, Lab
from tests.browser.driving import PLACE, open_notebook, open_sheet

pytestmark = pytest.mark.browser

Lay = Callable[[str, str], str]
Answer = dict[str, Any]


@dataclass(frozen=True)
class Ways:
    """One exercise of the bank, answered in three ways.

    Attributes
    ----------
    taps : tuple
        Places that are tapped [mm].
    touched : callable
        Tell whether an answer is what the taps should come to.
    keys, typed : tuple
        What is pressed on the drawing; fields with the values typed into them, and last the button.
    by_keys, by_numbers : dict
        The answers these come to.
    opener, adder : str
        Buttons that open the table, and add what was typed; "" where there is none.
    """

    taps: tuple[tuple[float, float], ...]
    touched: Callable[[Answer], bool]
    keys: tuple[str, ...]
    by_keys: Answer
    typed: tuple[tuple[str, str], ...]
    by_numbers: Answer
    opener: str = ""
    adder: str = ""


def near(found: float, wanted: float) -> bool:
    return abs(found - wanted) <= 20


HOLE = {"x": 1500, "y": 75, "diameter": 20, "protection": "none"}
WAYS = {
    "bedroom-zones": Ways(
        taps=((755, 1155), (845, 1245)),
        touched=lambda one: one["areas"] == [[[757, 1157], [843, 1243]]],
        keys=("a", "Enter", "a", "Enter"),
        by_keys={"areas": [[[757, 1157], [843, 1243]]]},
        typed=tuple(zip(
            (f"New area, {edge} edge (mm)" for edge in ("left", "lower", "right", "upper")),
            ("0", "2250", "3600", "2400"), strict=True,
        )),
        by_numbers={"areas": [[[0, 2250], [3600, 2400]]]},
        opener="Areas as a table",
        adder="Add area",
    ),
    "hall-pictures": Ways(
        taps=((550, 1700),),
        touched=lambda one: near(one["places"]["P1"][0], 300),
        keys=("PageDown", "PageDown", "Enter", "Enter", "ArrowUp", "Enter"),
        by_keys={"places": {"P2": [1750, 880]}},
        typed=(("P1, left edge (mm)", "300"), ("P1, lower edge (mm)", "1500")),
        by_numbers={"places": {"P1": [300, 1500]}},
    ),
    "bathroom-joist": Ways(
        taps=((1000, 75),),
        touched=lambda one: near(one["holes"][0]["x"], 1000),
        keys=("Enter", "Shift+ArrowRight", "Enter"),
        by_keys={"holes": [HOLE, {**HOLE, "x": 1550}], "notches": []},
        typed=(
            ("New hole, from the left support (mm)", "1000"), ("New hole, above the bottom (mm)", "75"),
            ("New hole, diameter (mm)", "20"),
        ),
        by_numbers={"holes": [{**HOLE, "x": 1000}], "notches": []},
        adder="Add hole",
    ),
}  # fmt: skip


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    made = browser.new_context(viewport={"width": 1000, "height": 1000}, has_touch=True)
    made.set_default_timeout(PATIENCE)
    yield made.new_page()
    made.close()


def kept(file: Path, fits: Callable[[Answer], bool]) -> None:
    """Wait until what is saved fits."""
    found: Answer = {}
    for _ in range(100):
        found = json.loads(file.read_text(encoding="utf-8"))["answer"] if file.exists() else {}
        if found and fits(found):
            return
        time.sleep(0.1)
    pytest.fail(f"Saved is {found}")


def to_the_drawing(page: Page) -> None:
    """Go on from the first button of the pad as one does without a mouse."""
    page.get_by_role("button", name="Read aloud").focus()
    for _ in range(6):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.getAttribute('role')") == "application":
            return
    pytest.fail("Tab did not lead to the drawing")


def press_if(page: Page, name: str) -> None:
    if name:
        page.get_by_role("button", name=name, exact=True).press("Enter")


@pytest.mark.parametrize("exercise", WAYS)
def test_by_keyboard_alone_and_by_numbers_alone(lab: Lab, page: Page, homework: Lay, exercise: str) -> None:
    ways, folder = WAYS[exercise], f"keys-{exercise}"
    open_notebook(page, lab.page_of(homework(exercise, folder)))
    open_sheet(page)
    file = lab.folder / folder / "answers" / f"{exercise}.json"
    to_the_drawing(page)
    for key in ways.keys:
        page.keyboard.press(key)
    kept(file, lambda found: found == ways.by_keys)
    page.get_by_role("button", name="Clear", exact=True).press("Enter")
    expect(page.locator(".zl-notice")).to_contain_text("All removed.")
    press_if(page, ways.opener)
    for label, value in ways.typed:
        page.get_by_label(label, exact=True).fill(value)
        page.get_by_label(label, exact=True).press("Tab")
    press_if(page, ways.adder)
    kept(file, lambda found: found == ways.by_numbers)


@pytest.mark.parametrize("exercise", WAYS)
def test_by_touch(lab: Lab, phone: Page, homework: Lay, exercise: str) -> None:
    ways, folder = WAYS[exercise], f"touch-{exercise}"
    open_notebook(phone, lab.page_of(homework(exercise, folder)))
    open_sheet(phone)
    for place in ways.taps:
        phone.locator(".zl-surface").scroll_into_view_if_needed()
        phone.touchscreen.tap(*phone.evaluate(PLACE, list(place)))
    kept(lab.folder / folder / "answers" / f"{exercise}.json", ways.touched)
