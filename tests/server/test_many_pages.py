"""Twelve real pages at once finish a quiz; and a practice in a browser tells at once."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.server.room import Room, opened_room, plan
from zonelib.desk.server.handing import handed_in

pytestmark = pytest.mark.browser
TWELVE = 12
SHOTS = Path("test-results")


@pytest.fixture
def twelve(tmp_path: Path) -> Iterator[Room]:
    """Return a room of twelve seats and one question."""
    with opened_room(tmp_path, plan(names=("bedroom-drop",), seats=TWELVE)) as opened:
        yield opened


def draw(page: Page, legs: int) -> None:
    """Draw by keys; each candidate as many legs as their number says."""
    page.get_by_role("application").focus()
    for leg in range(legs):
        page.keyboard.press("Shift+ArrowDown" if leg % 2 else "Shift+ArrowRight")
        page.keyboard.press("Enter")


def test_twelve_pages_at_once_finish_a_quiz(browser: Browser, twelve: Room) -> None:
    contexts = [browser.new_context(viewport={"width": 900, "height": 800}) for _ in twelve.codes]
    pages = {number: one.new_page() for number, one in zip(twelve.codes, contexts, strict=True)}
    for number, page in pages.items():
        page.goto(f"http://127.0.0.1:{twelve.port}/")
        page.get_by_label("Code on your slip").fill(twelve.codes[number])
        page.keyboard.press("Enter")
    for page in pages.values():
        page.get_by_role("button", name="Start", exact=True).click()
    for legs, page in enumerate(pages.values(), start=1):
        page.wait_for_selector(".zl-pad .zl-overlay")
        draw(page, legs)
    for page in pages.values():
        expect(page.locator(".zl-saved")).to_contain_text("Saved ", timeout=20000)
        page.get_by_role("button", name="Check and hand in").first.click()
        page.get_by_role("button", name="Hand in now").click()
    receipts = {number: page.locator(".receipt").inner_text(timeout=20000) for number, page in pages.items()}
    with twelve.store.reading() as connection:
        files = {one.file.candidate: one.file for one in handed_in(connection, "autumn", now=0.0)}
    assert receipts == {number: one.receipt for number, one in files.items()}
    legs_kept = [len(one.answers[0].answer["points"]) - 1 for one in files.values()]
    assert legs_kept == list(range(1, TWELVE + 1))
    for one in contexts:
        one.close()


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
