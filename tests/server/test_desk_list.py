"""The invigilator's list of a large room, on a screen and on a phone: sifted, searched, its head in sight."""

from collections.abc import Iterator

import pytest
import sqlalchemy as sa
from playwright.sync_api import Browser, Page, expect

from tests.axe import violations
from tests.server.browsing import at_desk, press
from tests.server.room import NAMES, Room, opened_room, plan
from zonelib.desk.server.codes import desk_key
from zonelib.desk.server.tables import seats

pytestmark = pytest.mark.browser
MANY = 30
CLEAR = """() => document.activeElement.getBoundingClientRect().top
    >= document.querySelector(".sieve").getBoundingClientRect().bottom - 1"""
"""Whether what has the focus lies below the bar."""

STATES = ("working", "working", "silent", "handed in", "away")


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Room]:
    """Return a room whose seats stand in every state in turn."""
    with opened_room(tmp_path_factory.mktemp("full"), plan(seats=MANY)) as room:
        with room.store.writing() as connection:
            ids = connection.execute(sa.select(seats.c.id).order_by(seats.c.candidate)).scalars().all()
            for at, seat in enumerate(ids):
                values = standing(STATES[at % len(STATES)], seat, room.hands.date)
                connection.execute(seats.update().where(seats.c.id == seat).values(**values))
        yield room


def standing(state: str, seat: str, now: float) -> dict[str, object]:
    """Return what makes a seat stand in a state."""
    if state == "away":
        return {"session": None}
    seen = now - 130 if state == "silent" else now
    sits = {
        "session": seat,
        "started_at": now - 600,
        "seen_at": seen,
        "at_exercise": NAMES[0],
        "saved_at": seen,
    }
    return {**sits, "handed_in_at": now, "receipt": "K7QM-4TXR"} if state == "handed in" else sits


@pytest.fixture(params=[1280, 390])
def desk(browser: Browser, full: Room, request: pytest.FixtureRequest) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": request.param, "height": 900})
    page = context.new_page()
    page.goto(f"http://127.0.0.1:{full.port}/desk")
    yield at_desk(page, desk_key(full.store.secret))
    context.close()


def listed(page: Page) -> list[str]:
    return page.locator(".seats tbody").get_by_role("rowheader").all_inner_texts()


def test_the_list_is_sifted_by_state_and_stays_so(desk: Page) -> None:
    assert len(listed(desk)) == MANY
    press(desk, "Silent: 6")
    assert listed(desk) == [f"C-{n:03}" for n in range(3, MANY, 5)]
    with desk.expect_response("**/api/desk/autumn"):
        pass
    desk.wait_for_timeout(200)
    assert listed(desk) == [f"C-{n:03}" for n in range(3, MANY, 5)]
    expect(desk.get_by_role("button", name="Silent: 6")).to_be_focused()
    expect(desk.get_by_role("button", name="Silent: 6")).to_have_attribute("aria-pressed", "true")
    press(desk, "Handed in or over: 6")
    expect(desk.locator("#voice")).to_have_text("6 candidates shown.")
    press(desk, "Not started: 6")
    assert violations(desk) == []


def test_a_candidate_is_found_by_number(desk: Page) -> None:
    desk.get_by_label("Find candidate").press_sequentially("c-02")
    assert listed(desk) == [f"C-{n:03}" for n in range(20, 30)]
    desk.get_by_label("Find candidate").press_sequentially("x")
    expect(desk.get_by_text("No candidate is shown.")).to_be_visible()
    assert violations(desk) == []


def test_what_tells_the_list_stays_in_sight(desk: Page) -> None:
    desk.locator(".seats tbody tr").last.scroll_into_view_if_needed()
    desk.mouse.wheel(0, 300)
    wide = desk.evaluate("innerWidth") > 700
    for part in (".sieve", ".seats thead th") if wide else (".sieve",):
        box = desk.locator(part).first.bounding_box()
        assert box
        assert 0 <= box["y"] < 200
    assert desk.evaluate("document.documentElement.scrollWidth") <= desk.evaluate("innerWidth")
    row = desk.locator(".seats tbody tr").first.bounding_box()
    assert row
    assert row["height"] < 130


def test_what_is_reached_by_tab_is_not_under_the_bar(desk: Page) -> None:
    desk.get_by_role("button", name="Add time: C-020").focus()
    for _ in range(30):
        desk.keyboard.press("Shift+Tab")
        assert desk.evaluate(CLEAR)
