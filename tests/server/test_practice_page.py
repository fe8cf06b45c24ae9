"""A practice on a phone: begun without a code, told at once, gone on with later."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.server.room import opened_room, plan

pytestmark = pytest.mark.browser
SHOTS = Path("test-results")


def draw(page: Page, legs: int) -> None:
    """Draw by keys, to the right and down by turns."""
    page.get_by_role("application").focus()
    for leg in range(legs):
        page.keyboard.press("Shift+ArrowDown" if leg % 2 else "Shift+ArrowRight")
        page.keyboard.press("Enter")


def test_practice_is_begun_without_a_code_and_tells_at_once(browser: Browser, tmp_path: Path) -> None:
    with opened_room(tmp_path, plan("practice", seats=1)) as room:
        page = browser.new_page(viewport={"width": 390, "height": 844})
        page.goto(f"http://127.0.0.1:{room.port}/")
        page.get_by_role("button", name="Autumn").click()
        code = page.locator("#practice b").inner_text()
        page.get_by_role("link", name="Go to the exercises").click()
        page.wait_for_selector(".zl-pad")
        for tab in page.locator(".tab:not(.wide)").all():
            if "A drop to a socket" not in page.locator("h1").inner_text():
                tab.click()
                page.wait_for_timeout(500)
        draw(page, 2)
        page.get_by_role("button", name="Check", exact=True).click()
        expect(page.locator(".zl-panel")).to_contain_text("of 10 marks", timeout=20000)
        expect(page.locator(".zl-panel")).to_contain_text("Local codes and a licensed electrician decide.")
        expect(page.locator(".zl-panel")).to_contain_text("What to change")
        expect(page.locator(".tab[aria-current]")).to_contain_text("answered")
        expect(page.get_by_role("button", name="Check and hand in")).to_have_count(0)
        SHOTS.mkdir(exist_ok=True)
        page.screenshot(path=SHOTS / "server-practice.png", full_page=True)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        page.close()
        assert room.client().post("/api/sign-in", code=code).data["state"] == "in"
