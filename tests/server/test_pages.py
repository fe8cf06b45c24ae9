"""The pages in a real browser: a whole way, the network cut, a crash, the end, the invigilator."""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.axe import violations
from tests.server.browsing import at_desk, draw, enter, press, saved
from tests.server.room import ROUTE, Room
from zonelib.desk.server.codes import desk_key

pytestmark = pytest.mark.browser
Open = Callable[..., Page]
SMALL = """() => [...document.querySelectorAll("button, input, select, summary")]
    .map((e) => [e.outerHTML, e.getBoundingClientRect()])
    .filter(([, box]) => box.width && Math.min(box.width, box.height) < 24).map(([html]) => html)"""
"""All targets that are seen and smaller than 24 pixels, at one moment: the page is drawn anew meanwhile."""

EXPECTED = ("401", "403", "409", "ERR_INTERNET_DISCONNECTED", "ERR_FAILED", "net::ERR")
"""A browser tells of every request that was refused or cut; these are part of the tests."""


@pytest.fixture
def opened(browser: Browser, room: Room) -> Iterator[Open]:
    """Return a function that opens a page of the room; what its scripts stumble over fails the test."""
    troubles: list[str] = []
    contexts: list[BrowserContext] = []

    def heard(text: str) -> None:
        if not any(one in text for one in EXPECTED):
            troubles.append(text)

    def start(path: str = "/", *, width: int = 1280, context: BrowserContext | None = None) -> Page:
        own = context or browser.new_context(viewport={"width": width, "height": 900})
        contexts.append(own)
        page = own.new_page()
        page.on("pageerror", lambda error: heard(str(error)))
        page.on("console", lambda one: heard(one.text) if one.type in ("error", "warning") else None)
        page.goto(f"http://127.0.0.1:{room.port}{path}")
        return page

    yield start
    for one in contexts:
        one.close()
    assert troubles == []


def begun(opened: Open, room: Room, *, number: str = "C-001", width: int = 1280) -> Page:
    """Return the page of a candidate who has started, on the question of a route."""
    page = enter(opened(width=width), room.codes[number])
    press(page, "Start")
    page.wait_for_selector(".zl-pad")
    at_route(page)
    return page


def at_route(page: Page) -> None:
    for tab in page.locator(".tab:not(.wide)").all():
        if "A drop to a socket" in page.locator("h1").inner_text():
            return
        tab.click()
        page.wait_for_selector(".zl-pad")
        page.wait_for_timeout(200)


def stored(room: Room, number: str = "C-001") -> tuple[int, int]:
    """Return revision and number of points as the server has them."""
    import json

    from zonelib.desk.server.tables import answers

    with room.store.reading() as connection:
        wanted = (answers.c.seat == room.id_of(number)) & (answers.c.exercise == "bedroom-drop")
        row = connection.execute(answers.select().where(wanted)).first()
    return (row.revision, len(json.loads(row.body).get("points", ()))) if row else (0, 0)


def test_the_whole_way_by_keyboard_alone(opened: Open, room: Room) -> None:
    page = opened()
    page.keyboard.type(room.codes["C-001"])
    page.keyboard.press("Enter")
    page.wait_for_url("**/sit")
    go(page, "Start")
    page.wait_for_selector(".zl-pad")
    at_route(page)
    draw(page)
    saved(page)
    go(page, "Check and hand in")
    expect(page.get_by_role("heading", level=1)).to_have_text("Check and hand in")
    go(page, "Hand in now")
    expect(page.locator(".receipt")).to_have_text(handed(room))
    assert stored(room)[0] >= 1


def go(page: Page, name: str) -> None:
    """Reach a button by Tab alone and press it."""
    target = page.get_by_role("button", name=name, exact=True).first
    target.wait_for()
    for _ in range(60):
        page.keyboard.press("Tab")
        if target.evaluate("e => e === document.activeElement"):
            page.keyboard.press("Enter")
            return
    pytest.fail(f"the button {name} is not reached by Tab")


def handed(room: Room) -> str:
    rows = room.desk().get("/api/desk/autumn").data["seats"]
    return str(next(one["receipt"] for one in rows if one["candidate"] == "C-001"))


def test_strokes_made_without_a_network_are_kept_and_sent(opened: Open, room: Room) -> None:
    page = begun(opened, room)
    draw(page)
    saved(page)
    revision, points = stored(room)
    page.context.set_offline(True)
    draw(page, points=1)
    expect(page.locator("#banner")).to_contain_text("The server cannot be reached. Go on working.")
    assert stored(room) == (revision, points)
    other, this = page.locator(".tab:not(.wide):not([aria-current])"), page.locator("h1").inner_text()
    other.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Where to expect a cable")
    other.click()
    expect(page.get_by_role("heading", level=1)).to_have_text(this)
    expect(page.locator(".zl-pad")).to_contain_text(f"The route has {points + 1} points")
    page.context.set_offline(False)
    expect(page.locator("#banner")).to_be_hidden(timeout=15000)
    assert stored(room)[1] == points + 1


def test_a_browser_that_crashes_without_a_network_loses_no_stroke(opened: Open, room: Room) -> None:
    page = begun(opened, room)
    draw(page)
    saved(page)
    _, points = stored(room)
    context = page.context
    context.set_offline(True)
    draw(page, points=1)
    expect(page.locator("#banner")).to_be_visible()
    page.close()
    context.set_offline(False)
    again = opened("/sit", context=context)
    again.wait_for_selector(".zl-pad")
    expect(again.locator("#banner")).to_be_hidden()
    again.wait_for_timeout(500)
    assert stored(room)[1] == points + 1


def test_what_the_servers_disk_lost_is_sent_again(opened: Open, room: Room) -> None:
    from zonelib.desk.server.tables import answers

    page = begun(opened, room)
    draw(page)
    saved(page)
    before = stored(room)
    with room.store.writing() as connection:
        connection.execute(answers.delete())
    page.reload()
    page.wait_for_selector(".zl-pad")
    at_route(page)
    saved(page)
    page.wait_for_timeout(500)
    assert stored(room) == before


def test_a_second_tab_gets_the_newer_answer(opened: Open, room: Room) -> None:
    page = begun(opened, room)
    draw(page)
    other = opened("/sit", context=page.context)
    other.wait_for_selector(".zl-pad")
    at_route(other)
    draw(page, points=1)
    saved(page)
    newest = stored(room)
    draw(other, points=1, key="Shift+ArrowRight")
    expect(other.locator(".zl-problem")).to_contain_text("A newer answer to this question is stored already.")
    assert stored(room) == newest


def test_the_devices_date_is_of_no_account(opened: Open, room: Room) -> None:
    page = enter(opened(), room.codes["C-001"])
    page.clock.set_fixed_time("2031-01-01T00:00:00Z")
    press(page, "Start")
    expect(page.locator("#clock")).to_contain_text("30:00 left")


def test_at_the_end_the_pad_closes_and_the_receipt_is_shown(opened: Open, room: Room) -> None:
    page = begun(opened, room)
    draw(page)
    saved(page)
    room.hands.pass_by(30 * 60 + 1)
    expect(page.get_by_text("Your time is over. What was saved counts.")).to_be_visible(timeout=15000)
    expect(page.locator(".receipt")).to_have_text(handed(room))
    room.act("add", minutes=5)
    expect(page.locator(".zl-pad")).to_be_visible(timeout=15000)


def test_a_pause_and_more_time_reach_the_page_without_reload(opened: Open, room: Room) -> None:
    page = begun(opened, room)
    room.act("pause", reason="fire alarm")
    expect(page.locator("#banner")).to_contain_text("The clock is paused.", timeout=15000)
    expect(page.locator("#clock")).to_contain_text("Paused at ")
    assert page.locator(".pad-place").evaluate("e => e.inert")
    room.act("resume")
    room.act("add", minutes=10)
    expect(page.locator("#clock")).to_contain_text("39:", timeout=15000)
    assert not page.locator(".pad-place").evaluate("e => e.inert")


def test_another_device_waits_and_is_let_in_from_the_invigilators_page(opened: Open, room: Room) -> None:
    first = begun(opened, room)
    second = enter(opened(), room.codes["C-001"])
    expect(second.get_by_role("heading", level=1)).to_have_text("Wait for the invigilator")
    desk = watching(opened, room)
    press(desk, "Move the seat there")
    desk.get_by_label("Reason, for the log").fill("the first screen broke")
    desk.keyboard.press("Enter")
    second.wait_for_selector(".zl-pad", timeout=15000)
    expect(first.locator("#banner")).to_contain_text(
        "This seat is now in use on another device.", timeout=15000
    )
    expect(desk.locator(".log")).to_contain_text("seat moved, by the invigilator (the first screen broke)")


def watching(opened: Open, room: Room, *, width: int = 1280) -> Page:
    return at_desk(opened("/desk", width=width), desk_key(room.store.secret))


def test_the_invigilator_sees_a_save_without_reload(opened: Open, room: Room) -> None:
    desk = watching(opened, room)
    row = desk.get_by_role("row").filter(has_text="C-001")
    expect(row).to_contain_text("not in yet")
    seat = room.seat()
    expect(row).to_contain_text("working", timeout=10000)
    seat.save("bedroom-drop", 1, ROUTE)
    expect(row).to_contain_text("1 of 2", timeout=10000)


def test_results_are_shown_once_released_with_their_pictures(opened: Open, room: Room) -> None:
    seat = room.seat()
    seat.save("bedroom-drop", 1, ROUTE)
    seat.post("/api/leave")
    room.act("close")
    page = enter(opened(), room.codes["C-001"])
    expect(page.get_by_text("Results are shown here once they are released.")).to_be_visible()
    room.act("release")
    press_later(page, "See your results")
    expect(page.locator(".result svg").first).to_be_visible()
    expect(page.locator(".marks")).to_contain_text("A drop to a socket")
    assert violations(page) == []


def press_later(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).click(timeout=15000)


@pytest.mark.parametrize("width", [1280, 390])
def test_axe_finds_nothing_on_a_candidates_pages(opened: Open, room: Room, width: int) -> None:
    page = opened(width=width)
    assert violations(page) == []
    enter(page, room.codes["C-001"])
    page.get_by_role("button", name="Start").wait_for()
    assert violations(page) == []
    press(page, "Try the drawing pad first")
    page.wait_for_selector(".zl-pad")
    assert violations(page) == []
    press(page, "Done trying")
    press(page, "Start")
    page.wait_for_selector(".zl-pad")
    press(page, "Flag to come back")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    press(page, "Check and hand in")
    assert violations(page) == []
    press(page, "Hand in now")
    page.wait_for_selector(".receipt")
    assert violations(page) == []


@pytest.mark.parametrize("width", [1280, 390])
def test_axe_finds_nothing_on_the_invigilators_page(opened: Open, room: Room, width: int) -> None:
    room.seat().save("bedroom-drop", 1, ROUTE)
    room.client().post("/api/sign-in", code=room.codes["C-001"])
    page = watching(opened, room, width=width)
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_role("button", name="Add time: C-001").click()
    page.locator("dialog").wait_for()
    assert violations(page) == []


@pytest.mark.parametrize("width", [1280, 390])
def test_targets_are_24_pixels_or_more(opened: Open, room: Room, width: int) -> None:
    page, desk = begun(opened, room, width=width), watching(opened, room, width=width)
    for one in (page, desk):
        assert one.evaluate(SMALL) == []
