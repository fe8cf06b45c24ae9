"""Forms, given cables and rooms in JupyterLab, by mouse: answered, saved, checked, there after a restart."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Lab
from tests.browser.driving import click_wall, open_notebook, press, restart_kernel, run_cell, saved_words

pytestmark = pytest.mark.browser

Lay = Callable[[str, str], str]


@dataclass(frozen=True)
class Turn:
    """One kind at work.

    Attributes
    ----------
    exercise : str
        Of the bank.
    answer : callable
        Answers it by mouse.
    found : str
        Words of the panel after a check.
    marked : int
        How many numbers the check draws.
    saved : dict
        Parts of the saved answer.
    """

    exercise: str
    answer: Callable[[Page], None]
    found: str
    marked: int
    saved: dict[str, Any]


def choose(page: Page) -> None:
    for name in ("F2", "F4"):
        page.locator(".zl-option", has_text=f"{name}:").click()


def number(page: Page) -> None:
    page.get_by_label("Your number in mm").click()
    page.keyboard.type("100,0")
    page.keyboard.press("Tab")


def protect(page: Page) -> None:
    page.get_by_label("Covering of leg 1").select_option("plastic-conduit")
    page.get_by_label("Rating").select_option("30")
    page.get_by_label("Where it sits").select_option("outlet")


def room(page: Page) -> None:
    click_wall(page, (13200, 2395), (9250, 2395), (9250, 1700), (9650, 1700))
    page.get_by_label("Way of leg 2").select_option("ceiling-void")


def inspect(page: Page) -> None:
    click_wall(page, (800, 1500), (800, 900))
    page.get_by_role("button", name="Whole leg").click()
    click_wall(page, (1600, 250))
    page.get_by_role("group", name="M2:").get_by_label("Remedy").select_option("plastic")
    page.get_by_label("Cable R1").select_option("yes")


OUTLET = {"ma": 30, "at": "outlet", "delayed": False}
TURNS = [
    Turn("landing-which-screws", choose, "F4 is not right", 0, {"chosen": ["F2", "F4"]}),
    Turn("bedroom-how-far-out", number, "How to come to it", 0, {"value": "100,0"}),
    Turn("store-given-run", protect, "Outside the zones.", 1, {"rcd": OUTLET}),
    Turn("bedroom-over-the-ceiling", room, "bed.5", 1, {"via": ["wall", "ceiling-void", "wall", "wall"]}),
    Turn("dining-inspection", inspect, "Marked, though it passes", 3, {"passes": {"R1": True}}),
]


def opened(page: Page) -> None:
    run_cell(page)
    page.wait_for_selector(".zl-sheet .zl-pad .zl-folds")


@pytest.mark.parametrize("turn", TURNS, ids=lambda turn: turn.exercise)
def test_a_kind_is_answered_saved_checked_and_there_again(
    lab: Lab, page: Page, homework: Lay, turn: Turn
) -> None:
    name = homework(turn.exercise, f"more-{turn.exercise}")
    open_notebook(page, lab.page_of(name))
    opened(page)
    turn.answer(page)
    saved_words(page, "Saved")
    press(page, "Check")
    panel = page.locator(".zl-panel")
    panel.locator(".zl-score").wait_for()
    expect(panel).to_contain_text(turn.found)
    expect(panel).to_contain_text("Local codes and a licensed electrician decide.")
    expect(page.locator(".zl-overlay .zl-disc")).to_have_count(turn.marked)
    if turn.marked:
        panel.locator("button.zl-said").first.click()
        expect(page.locator(".zl-overlay .zl-disc.zl-lit")).to_have_count(1)
    file = lab.folder / f"more-{turn.exercise}" / "answers" / f"{turn.exercise}.json"
    kept = json.loads(file.read_text(encoding="utf-8"))["answer"]
    assert {part: kept[part] for part in turn.saved} == turn.saved

    restart_kernel(page)
    opened(page)
    saved_words(page, "back as you left it")
    assert json.loads(file.read_text(encoding="utf-8"))["answer"] == kept
