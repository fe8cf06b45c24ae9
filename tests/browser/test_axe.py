"""axe-core finds nothing on the whole sheet of each kind in JupyterLab, before a check and after one."""

import os
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.desk import Desk
from tests.browser.drawn_turns import DRAWN
from tests.browser.driving import press, saved_words
from tests.browser.formed_turns import FORMED
from tests.browser.turns import Turn

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parents[2]
AXE = Path(os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js"))

# The sheet alone: the shell round it is JupyterLab's.
RUN = """async () => (await axe.run('.zl-sheet')).violations
  .map((one) => [one.id, ...one.nodes.map((node) => node.html.slice(0, 200))].join(' | '))"""
UNFOLD = "document.querySelectorAll('.zl-sheet details').forEach((one) => { one.open = true; })"


def violations(page: Page) -> list[str]:
    """Return what axe finds on the sheet, with everything on it unfolded."""
    page.evaluate(UNFOLD)
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text(encoding="utf-8"))
    return list(page.evaluate(RUN))


@pytest.mark.parametrize("turn", [*DRAWN, *FORMED], ids=lambda turn: turn.exercise)
def test_axe_finds_nothing_on_the_sheet(desk: Desk, turn: Turn) -> None:
    page = desk.open(turn.exercise)
    assert violations(page) == []
    turn.mouse.act(page)
    saved_words(page, "Saved")
    press(page, "Hint")
    desk.check()
    assert violations(page) == []


def test_axe_sees_what_is_amiss_on_a_sheet(desk: Desk) -> None:
    page = desk.open("store-given-run")
    page.evaluate("document.querySelector('.zl-sheet select').removeAttribute('aria-label')")
    assert any(one.startswith("select-name") for one in violations(page))
