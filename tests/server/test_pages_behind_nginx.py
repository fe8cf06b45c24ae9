"""Pages in Chromium behind Debian's nginx with HTTPS: the network is cut, a server dies, nothing is lost."""

import json
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.server.browsing import at_desk, draw, enter, press, saved
from tests.server.college import College, college_in
from tests.server.room import NAMES, plan
from zonelib.desk.server.codes import desk_key
from zonelib.desk.server.store import open_store
from zonelib.desk.server.tables import answers, seats

pytestmark = pytest.mark.browser
Open = Callable[[str], Page]


@pytest.fixture
def college(tmp_path: Path) -> Iterator[College]:
    with college_in(tmp_path, plan(names=NAMES[:1], seats=1)) as opened:
        yield opened


@pytest.fixture
def opened(browser: Browser, college: College) -> Iterator[Open]:
    """Return a function that opens an address of the college; the browser takes the run's own certificate."""
    with ExitStack() as stack:

        def start(path: str) -> Page:
            context = browser.new_context(ignore_https_errors=True)
            stack.callback(context.close)
            page = context.new_page()
            page.goto(college.address + path)
            return page

        yield start


def test_a_candidate_over_https_loses_network_and_server_and_no_stroke(
    opened: Open, college: College
) -> None:
    page, desk = begun(opened, college), opened("/desk")
    at_desk(desk, key_of(college))
    row = desk.get_by_role("row").filter(has_text="C-001")
    expect(row).to_contain_text("1 of 1")
    page.context.set_offline(True)
    draw(page, points=1)
    expect(page.locator("#banner")).to_contain_text("Answers that wait on this device: 1.")
    page.context.set_offline(False)
    expect(page.locator("#banner")).to_be_hidden(timeout=15_000)
    college.servers[0].kill()
    draw(page, points=1, key="Shift+ArrowRight")
    expect(page.locator(".zl-pad")).to_contain_text("The route has 5 points")
    press(page, "Check and hand in")
    press(page, "Hand in now")
    receipt = page.locator(".receipt").inner_text()
    expect(row).to_contain_text("handed in", timeout=15_000)
    assert stored(college) == (receipt, 5)


def begun(opened: Open, college: College) -> Page:
    """Return the page of a candidate who has drawn two points; its cookie travels by HTTPS alone."""
    page = enter(opened("/"), college.codes["C-001"])
    press(page, "Start")
    page.wait_for_selector(".zl-pad")
    draw(page)
    saved(page)
    kept = [one for one in page.context.cookies() if one["name"] == "zonelib_seat"]
    assert [(one["secure"], one["httpOnly"], one["sameSite"]) for one in kept] == [(True, True, "Strict")]
    return page


def key_of(college: College) -> str:
    store = open_store(college.folder, college.database)
    store.close()
    return desk_key(store.secret)


def stored(college: College) -> tuple[str, int]:
    """Return the receipt and the number of points, as the database has them."""
    store = open_store(college.folder, college.database)
    with store.reading() as connection:
        receipt = connection.execute(seats.select()).one().receipt
        body = connection.execute(answers.select()).one().body
    store.close()
    return receipt, len(json.loads(body)["points"])
