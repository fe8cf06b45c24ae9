"""Each kind of exercise in JupyterLab, by mouse: answered, saved, checked, there again after a restart."""

import pytest
from playwright.sync_api import expect

from tests.browser.desk import Desk
from tests.browser.drawn_turns import DRAWN
from tests.browser.driving import restart_kernel, saved_words
from tests.browser.formed_turns import FORMED
from tests.browser.turns import Turn

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("turn", [*DRAWN, *FORMED], ids=lambda turn: turn.exercise)
def test_a_kind_is_answered_saved_checked_and_there_again(desk: Desk, turn: Turn) -> None:
    page = desk.open(turn.exercise)
    turn.mouse.act(page)
    desk.wait_for(turn.exercise, turn.mouse.fits)
    saved_words(page, "Saved")
    desk.check()
    panel = page.locator(".zl-panel")
    expect(panel).to_contain_text(turn.found)
    expect(panel).to_contain_text("Local codes and a licensed electrician decide.")
    expect(page.locator(".zl-overlay .zl-disc")).to_have_count(turn.marked)
    if turn.marked:
        panel.locator("button.zl-said").first.click()
        expect(page.locator(".zl-overlay .zl-disc.zl-lit")).to_have_count(1)
    drawn = desk.answer(turn.exercise)
    words = page.locator(".zl-surface + .zl-unseen + .zl-unseen").all_text_contents()

    restart_kernel(page)
    desk.open(turn.exercise, afresh=False)
    saved_words(page, "back as you left it")
    assert page.locator(".zl-surface + .zl-unseen + .zl-unseen").all_text_contents() == words
    assert desk.answer(turn.exercise) == drawn
