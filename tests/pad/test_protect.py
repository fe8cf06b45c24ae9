"""A given route on the page: its legs and its RCD are chosen, its points are not moved."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import answer, button, commits, drag, surface

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
RUN = "store-given-run"
CHOSEN = (
    '{"depth": [15, 15], "protection": ["earthed-steel-conduit", "none"], '
    '"rcd": {"ma": 30, "at": "outlet", "delayed": true}}'
)


def test_legs_and_rcd_are_chosen_by_mouse_and_undone(show: Show) -> None:
    page = show(bank=RUN)
    page.get_by_label("Covering of leg 1").select_option("earthed-steel-conduit")
    page.get_by_label("Rating").select_option("30")
    page.get_by_label("Where it sits").select_option("outlet")
    page.get_by_label("Time-delayed").check()
    assert answer(page)["rcd"] == {"ma": 30, "at": "outlet", "delayed": True}
    assert answer(page)["protection"] == ["earthed-steel-conduit", "none"]
    assert page.locator(".zl-cover").count() == 1
    button(page, "Undo").click()
    assert answer(page)["rcd"]["delayed"] is False


def test_a_drag_moves_no_point(show: Show) -> None:
    page = show(bank=RUN)
    drag(page, (1000, 450), (1400, 900))
    assert commits(page) == 0
    assert page.locator(".zl-handle").count() == 3
    expect(page.locator(".zl-readout")).to_contain_text("This route is given.")


def test_by_keys_alone_the_points_are_read_out_and_the_depth_is_set(show: Show) -> None:
    page = show(bank=RUN)
    surface(page).focus()
    page.keyboard.press("PageDown")
    expect(page.get_by_role("status")).to_contain_text("Point a: 1,000 from the left corner")
    page.get_by_label("Depth of leg 2 in mm").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("30")
    page.keyboard.press("Enter")
    assert answer(page)["depth"] == [15, 30]


def test_a_depth_that_is_not_on_offer_is_told_and_changes_nothing(show: Show) -> None:
    page = show(bank=RUN)
    page.get_by_label("Depth of leg 1 in mm").fill("90")
    page.get_by_label("Depth of leg 1 in mm").blur()
    expect(page.locator(".zl-trouble:visible")).to_contain_text("a number from 0 to 70")
    assert commits(page) == 0


def test_on_a_phone_by_touch(show: Show) -> None:
    page = show(bank=RUN, width=390, touch=True)
    button(page, "Zoom in").tap()
    page.get_by_label("Rating").select_option("30")
    page.get_by_label("Time-delayed").tap()
    assert answer(page)["rcd"]["delayed"] is True


@pytest.mark.parametrize("width", [1280, 390])
def test_axe_finds_nothing_and_stretches_bear_their_numbers(show: Show, width: int) -> None:
    page = show(bank=RUN, answer=CHOSEN, width=width)
    found = {"n": 2, "face": "front", "text": "In no zone.", "points": [[1000, 2250], [1000, 450]]}
    result = {"stretches": [found], "passed": False, "summary": "2 of 4 met"}
    page.evaluate("(result) => model.host({ result })", result)
    expect(page.locator(".zl-overlay .zl-disc-word")).to_have_text("2")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_label("Rating").select_option("none")
    expect(page.locator(".zl-stretch")).to_have_count(0)
