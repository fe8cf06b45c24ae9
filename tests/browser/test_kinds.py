"""Each kind of exercise in JupyterLab, by mouse: answered, saved, checked; axe-core finds nothing."""

import pytest
from playwright.sync_api import expect

from tests.browser.axe import violations
from tests.browser.desk import Desk
from tests.browser.drawn_turns import DRAWN
from tests.browser.driving import press, saved_words
from tests.browser.formed_turns import FORMED
from tests.browser.turns import Turn

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("turn", [*DRAWN, *FORMED], ids=lambda turn: turn.exercise)
def test_a_kind_is_answered_saved_checked_and_open_to_all(desk: Desk, turn: Turn) -> None:
    page = desk.open(turn.exercise)
    assert violations(page) == []
    turn.mouse.act(page)
    desk.wait_for(turn.exercise, turn.mouse.fits)
    saved_words(page, "Saved")
    press(page, "Hint")
    desk.check()
    panel = page.locator(".zl-panel")
    expect(panel).to_contain_text(turn.found)
    expect(panel).to_contain_text("Local codes and a licensed electrician decide.")
    expect(page.locator(".zl-overlay .zl-disc")).to_have_count(turn.marked)
    if turn.marked:
        panel.locator("button.zl-said").first.click()
        expect(page.locator(".zl-overlay .zl-disc.zl-lit")).to_have_count(1)
    assert violations(page) == []


def test_axe_sees_what_is_amiss_on_a_sheet(desk: Desk) -> None:
    page = desk.open("store-given-run")
    page.evaluate("document.querySelector('.zl-sheet select').removeAttribute('aria-label')")
    assert any(one.startswith("select-name") for one in violations(page))
