"""The pad on a phone: what is drawn is large enough, lists can be read, a long press is the field's own."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.pad.driving import button, spot

pytestmark = pytest.mark.browser
Show = Callable[..., Page]

PRESS = """(selector) => {
  let heard = 0;
  document.body.addEventListener("contextmenu", () => { heard += 1; });
  const press = new PointerEvent("contextmenu", { bubbles: true, cancelable: true, pointerType: "touch" });
  return [document.querySelector(selector).dispatchEvent(press), heard];
}"""


def height(page: Page) -> float:
    """Return how high the joist is on the screen [px]."""
    return spot(page, 0, 0)[1] - spot(page, 0, 150)[1]


@pytest.mark.parametrize("width", [390, 320])
def test_a_joist_opens_close_up_where_the_page_is_narrow(show: Show, width: int) -> None:
    page = show(bank="bathroom-joist", width=width)
    expect(button(page, "Show the whole joist")).to_have_attribute("aria-disabled", "false")
    assert height(page) == pytest.approx(44, abs=2)
    assert spot(page, 0, 75)[0] > 0  # it begins at the left support
    button(page, "Show the whole joist").click()
    assert spot(page, 3000, 75)[0] < width


def test_a_joist_is_whole_where_there_is_room(show: Show) -> None:
    page = show(bank="bathroom-joist")
    expect(button(page, "Show the whole joist")).to_have_attribute("aria-disabled", "true")
    assert height(page) > 40


def test_a_covering_can_be_read_in_its_list(show: Show) -> None:
    page = show(bank="store-given-run", width=320)
    listed = page.get_by_label("Covering of leg 1").bounding_box()
    assert listed is not None
    assert listed["width"] >= 150
    assert listed["x"] + listed["width"] <= 320


@pytest.mark.parametrize(("width", "told"), [(390, True), (1280, False)])
def test_a_drawing_that_goes_on_to_the_right_says_so(show: Show, width: int, told: bool) -> None:
    more = show(bank="landing-which-screws", width=width).locator(".zl-wider").first
    expect(more).to_be_visible(visible=told)


@pytest.mark.parametrize(("selector", "own"), [(".zl-number", True), (".zl-surface", False)])
def test_a_long_press_does_not_call_up_the_hosts_menu(show: Show, selector: str, own: bool) -> None:
    page = show(bank="store-given-run", touch=True)
    assert page.evaluate(PRESS, selector) == [own, 0]
