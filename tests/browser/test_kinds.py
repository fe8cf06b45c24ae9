"""Each kind of exercise in JupyterLab, by mouse: answered, saved, checked, there again after a restart."""

import json
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Lab
from tests.browser.driving import (
    click_wall,
    drag_wall,
    open_notebook,
    open_sheet,
    press,
    restart_kernel,
    saved_words,
)  # fmt: skip

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
    drawn : str
        What stands on the pad for the answer, as a selector.
    many : int
        How often it stands there.
    """

    exercise: str
    answer: Callable[[Page], None]
    found: str
    marked: int
    drawn: str
    many: int


def zones(page: Page) -> None:
    drag_wall(page, (10, 2390), (3590, 2255))
    click_wall(page, (5, 5), (150, 2390))
    click_wall(page, (3595, 5), (3450, 2390))
    click_wall(page, (5, 2), (3590, 120))


def fixings(page: Page) -> None:
    click_wall(page, (550, 1700))
    page.get_by_role("button", name="P3 picture").click()
    click_wall(page, (2500, 1700))
    page.get_by_label("P2, left edge (mm)").fill("1400")
    page.get_by_label("P2, lower edge (mm)").fill("1400")
    page.get_by_label("P2, lower edge (mm)").press("Tab")


def joist(page: Page) -> None:
    click_wall(page, (1000, 75))
    page.get_by_role("button", name="Notch", exact=True).click()
    click_wall(page, (400, 140))
    page.get_by_label("Notch B1, depth (mm)").fill("25")
    page.get_by_label("Notch B1, depth (mm)").press("Tab")


TURNS = [
    # Four strips are missed, and two of them cut the band along the floor into three pieces.
    Turn("bedroom-zones", zones, "There is no zone along the floor", 7, ".zl-area", 4),
    Turn("hall-pictures", fixings, "straight above and below L1", 1, ".zl-item:not(.zl-next)", 3),
    Turn("bathroom-joist", joist, "Notch B1 in joist J4 is 25 mm deep", 2, ".zl-cut", 2),
]


@pytest.mark.parametrize("turn", TURNS, ids=lambda turn: turn.exercise)
def test_a_kind_is_answered_saved_checked_and_there_again(
    lab: Lab, page: Page, homework: Lay, turn: Turn
) -> None:
    name = homework(turn.exercise, f"kind-{turn.exercise}")
    open_notebook(page, lab.page_of(name))
    open_sheet(page)
    turn.answer(page)
    saved_words(page, "Saved")
    press(page, "Check")
    panel = page.locator(".zl-panel")
    panel.locator(".zl-score").wait_for()
    expect(panel).to_contain_text(turn.found)
    expect(panel).to_contain_text("Local codes and a licensed electrician decide.")
    expect(page.locator(".zl-pad .zl-disc")).to_have_count(turn.marked)
    panel.locator("button.zl-said").first.click()
    expect(page.locator(".zl-pad .zl-disc.zl-lit")).to_have_count(1)
    expect(page.locator(turn.drawn)).to_have_count(turn.many)
    file = lab.folder / f"kind-{turn.exercise}" / "answers" / f"{turn.exercise}.json"
    drawn = json.loads(file.read_text(encoding="utf-8"))["answer"]

    restart_kernel(page)
    open_sheet(page)
    saved_words(page, "back as you left it")
    expect(page.locator(turn.drawn)).to_have_count(turn.many)
    assert json.loads(file.read_text(encoding="utf-8"))["answer"] == drawn
