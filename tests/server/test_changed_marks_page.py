"""Results with a mark that a tutor changed, in a real browser, on a screen and on a phone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.axe import violations
from tests.server.browsing import enter
from tests.server.changing import DROP, Marked
from tests.server.room import ROUTE, opened_room, plan
from zonelib.desk.server.store import FILE

pytestmark = pytest.mark.browser
SHOTS = Path("test-results")
REASON = "You explained at the bench, with a drawing, why the cable may run there <b>behind</b> the door."


@pytest.fixture(scope="module")
def changed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Marked]:
    """Return a released sitting in which one of two marks was changed."""
    folder = tmp_path_factory.mktemp("changed")
    with opened_room(folder, plan(seats=1)) as room:
        seat = room.seat()
        seat.save(DROP, 1, ROUTE)
        seat.post("/api/leave")
        room.act("close")
        made = Marked(room, seat, folder, str(folder / FILE))
        made.mark()
        assert made.change(7.25, reason=REASON).exit_code == 0
        room.act("release")
        yield made


@pytest.fixture(params=[1280, 390])
def page(request: pytest.FixtureRequest, browser: Browser, changed: Marked) -> Iterator[Page]:
    """Return the results as the candidate sees them, in a window of either width."""
    opened = browser.new_page(viewport={"width": request.param, "height": 900})
    opened.goto(f"http://127.0.0.1:{changed.room.port}/")
    enter(opened, changed.room.codes["C-001"])
    opened.get_by_role("button", name="See your results").click()
    opened.locator(".changed").wait_for()
    yield opened
    opened.get_by_role("button", name="Back").click()
    opened.get_by_role("button", name="Sign out on this device").click()
    opened.close()


def test_the_candidate_sees_both_marks_and_the_sum_follows(page: Page) -> None:
    main = page.locator("#main")
    expect(main).to_contain_text("7.25 of ")
    row = page.locator(".changed tbody tr")
    expect(row.locator("th")).to_have_text("A drop to a socket")
    expect(row.locator("td")).to_have_count(3)
    assert row.locator("td").all_inner_texts()[:2] == ["4.03", "7.25"]
    expect(row).to_contain_text(f"{REASON}Changed by: second marker. ")
    expect(page.locator(".changed-note")).to_have_text(
        "By the program: 4.03. By your tutor: 7.25. Your tutor's mark counts."
    )
    expect(page.locator(".result").filter(has_text="A drop to a socket")).to_contain_text("4.03 of 10 marks")
    width = page.evaluate("innerWidth")
    SHOTS.mkdir(exist_ok=True)
    page.screenshot(path=SHOTS / f"server-changed-mark-{width}.png", full_page=True)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_axe_finds_nothing_on_it(page: Page) -> None:
    assert violations(page) == []
