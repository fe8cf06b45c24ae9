"""Twelve candidates at once, each in a browser of their own, from the code to the receipt."""

import os
from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.server.browsing import at_desk, draw, press
from tests.server.room import Room, opened_room, plan
from zonelib.desk.server.codes import desk_key

pytestmark = pytest.mark.browser
MANY = 12
NAMES = ("bedroom-drop", "kitchen-hatch")
WIDTHS = (1280, 390)


@pytest.fixture
def full(tmp_path: Path) -> Iterator[Room]:
    with opened_room(tmp_path, plan(names=NAMES, seats=MANY)) as room:
        yield room


def seen(page: Page, name: str) -> None:
    """Keep a picture where one is asked for: ZONELIB_PICTURES names the folder."""
    if folder := os.environ.get("ZONELIB_PICTURES"):
        page.screenshot(path=f"{folder}/{name}.png", full_page=True)


@pytest.fixture
def pages(browser: Browser) -> Iterator[list[Page]]:
    """Return a page for each candidate and one for the invigilator, each with cookies of its own."""
    with ExitStack() as stack:
        opened = []
        for number in range(MANY + 1):
            context = browser.new_context(viewport=ViewportSize(width=WIDTHS[number % 2], height=900))
            stack.callback(context.close)
            opened.append(context.new_page())
            opened[-1].set_default_timeout(60_000)
        yield opened


def sit(pages: Sequence[Page], room: Room) -> None:
    """Bring every page from the code to one answered question, all at the same time."""
    for page, code in zip(pages, room.codes.values(), strict=True):
        page.goto(f"http://127.0.0.1:{room.port}/")
        page.get_by_label("Code on your slip").fill(code)
        page.keyboard.press("Enter")
    for page in pages:
        press(page, "Start")
    for page in pages:
        page.wait_for_selector(".zl-pad")
        draw(page)
    for page in pages:
        expect(page.locator(".zl-saved")).to_contain_text("Saved ", timeout=60_000)


def hand_in(pages: Sequence[Page]) -> list[str]:
    """Hand in on every page; return the receipts shown."""
    for page in pages:
        page.get_by_role("button", name="Check and hand in").click()
    both_seen(pages, "check")
    for page in pages:
        page.get_by_role("button", name="Hand in now").click()
    return [page.locator(".receipt").inner_text() for page in pages]


def both_seen(pages: Sequence[Page], name: str) -> None:
    for page, width in zip(pages, WIDTHS, strict=False):
        seen(page, f"{name}-{width}")


def test_twelve_browsers_finish_a_quiz_at_once(pages: list[Page], full: Room) -> None:
    *sitting, desk = pages
    desk.goto(f"http://127.0.0.1:{full.port}/desk")
    at_desk(desk, desk_key(full.store.secret))
    sit(sitting, full)
    both_seen(sitting, "question")
    receipts = hand_in(sitting)
    both_seen(sitting, "done")
    assert all(page.evaluate("document.documentElement.scrollWidth <= innerWidth") for page in pages)
    expect(desk.get_by_text("handed in").nth(MANY - 1)).to_be_visible(timeout=20_000)
    for width in WIDTHS:
        desk.set_viewport_size({"width": width, "height": 900})
        seen(desk, f"desk-{width}")
    rows = full.desk().get("/api/desk/autumn").data["seats"]
    assert [one["receipt"] for one in rows] == receipts
    assert [one["answered"] for one in rows] == [1] * MANY
