"""The network cut for two minutes, and until after the end: strokes wait on the device and are sent."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.server.browsing import draw, enter, press, saved
from tests.server.room import Room, opened_room, plan
from zonelib.desk.server.tables import answers

pytestmark = pytest.mark.browser
LATE = "Changes that reached the server too late: 1. They are still on this device. Tell the invigilator."


def begun(browser: Browser, room: Room) -> Page:
    """Return a page on its question, with one stroke stored."""
    page = browser.new_context().new_page()
    page.goto(f"http://127.0.0.1:{room.port}/")
    enter(page, room.codes["C-001"])
    press(page, "Start")
    page.wait_for_selector(".zl-pad")
    draw(page, points=1)
    saved(page)
    return page


def stored(room: Room) -> int:
    """Return how long the stored answer is, as text."""
    with room.store.reading() as connection:
        return len(connection.execute(answers.select()).one().body)


@pytest.mark.parametrize(("cut", "left"), [(120.0, "28:00 left"), (1900.0, "8:20 left")])
def test_strokes_of_a_cut_are_sent_when_the_network_is_back(
    browser: Browser, tmp_path: Path, cut: float, left: str
) -> None:
    with opened_room(tmp_path, plan(names=("bedroom-drop",), seats=1)) as room:
        page = begun(browser, room)
        before = stored(room)
        page.context.set_offline(True)
        draw(page, points=1)
        expect(page.locator("#banner")).to_contain_text(
            "Answers that wait on this device: 1.", timeout=20_000
        )
        room.hands.pass_by(cut)
        assert stored(room) == before
        page.context.set_offline(False)
        if cut > 1800:
            expect(page.get_by_text(LATE)).to_be_visible(timeout=30_000)
            assert stored(room) == before
            room.act("add", minutes=10, reason="the network was down")
        expect(page.locator("#clock")).to_contain_text(left, timeout=20_000)
        expect(page.locator(".zl-saved")).to_contain_text("Saved ", timeout=20_000)
        expect(page.locator("#banner")).to_be_hidden(timeout=20_000)
        assert stored(room) > before
        page.context.close()
