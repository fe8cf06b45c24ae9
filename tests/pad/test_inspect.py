"""An inspection on the page: stretches are marked by mouse, touch, keys and numbers, and spoken of below."""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import answer, button, click, commits, drag, spot, surface

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
WALL = "dining-inspection"
MARKED = (
    '{"stretches": [{"route": "R2", "from": 440, "to": 1560, "clause": "522.6.202"}, {"route": "R3"}], '
    '"passes": {"R1": true}}'
)


def only(page: Page) -> dict[str, Any]:
    (one,) = answer(page)["stretches"]
    return dict(one)


def is_low_part(one: dict[str, Any]) -> bool:
    """Tell whether it is the low part of R2: the pad draws an end to a corner nearby, to 400 and 1,600 mm."""
    return (one["route"], one["from"], one["to"]) == ("R2", 400, 1600)


def test_two_clicks_mark_a_stretch_and_the_card_says_the_rest(show: Show) -> None:
    page = show(bank=WALL)
    click(page, 1200, 410)
    click(page, 2000, 410)
    assert is_low_part(only(page))
    assert commits(page) == 1
    card = page.get_by_role("group", name="M1: R2 from")
    card.get_by_label("Clause").select_option("522.6.202")
    card.get_by_label("Remedy").select_option("lay-level")
    card.get_by_label("Why it matters").select_option("not-expected")
    page.get_by_label("Cable R2").select_option("no")
    assert only(page)["remedy"] == "lay-level"
    assert answer(page)["passes"] == {"R2": False}
    button(page, "Undo").click()
    assert answer(page)["passes"] == {}


def test_a_drag_marks_as_well_and_an_end_is_dragged_further(show: Show) -> None:
    page = show(bank=WALL)
    drag(page, (1200, 410), (2000, 300))
    assert commits(page) == 1
    drag(page, (2000, 300), (2000, 410))
    assert is_low_part(only(page))


def test_whole_leg_by_touch(show: Show) -> None:
    page = show(bank=WALL, width=390, touch=True)
    button(page, "Whole leg").tap()
    page.touchscreen.tap(*spot(page, 1600, 250))
    assert (only(page)["from"], only(page)["to"]) == (600, 1400)


def test_by_keys_alone(show: Show) -> None:
    page = show(bank=WALL)
    surface(page).focus()
    expect(page.get_by_role("status")).to_contain_text("0 along R1")
    page.keyboard.press("PageDown")
    page.keyboard.press("e")
    for _ in range(4):
        page.keyboard.press("ArrowDown")
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    for _ in range(3):
        page.keyboard.press("e")
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("Enter")
    assert (only(page)["from"], only(page)["to"]) == (440, 1550)
    expect(page.get_by_role("status")).to_contain_text("M1: R2 from 440 to")
    page.keyboard.press("Backspace")
    assert answer(page)["stretches"] == []


def test_by_numbers_alone(show: Show) -> None:
    page = show(bank=WALL)
    page.get_by_label("Cable", exact=True).select_option("R2")
    expect(page.get_by_text("R2: a at 0, b at 400, c at 600, d at 1,400")).to_be_visible()
    button(page, "Mark this stretch").click()
    expect(page.locator(".zl-trouble:visible")).to_contain_text("A mark needs two numbers")
    page.get_by_label("New mark, from").fill("440")
    page.get_by_label("New mark, to").fill("1560")
    button(page, "Mark this stretch").click()
    page.get_by_label("Cable", exact=True).select_option("R3")
    button(page, "Mark the whole cable").click()
    page.get_by_label("M1, to, in mm").fill("1500")
    page.get_by_label("M1, to, in mm").blur()
    first, second = answer(page)["stretches"]
    assert (first["from"], first["to"]) == (440, 1500)
    assert (second["route"], second["from"]) == ("R3", None)
    button(page, "Delete mark M1").click()
    assert only(page)["route"] == "R3"


@pytest.mark.parametrize("width", [1280, 768, 390])
def test_axe_finds_nothing_and_numbers_stand_where_the_panel_speaks_of(show: Show, width: int) -> None:
    page = show(bank=WALL, answer=MARKED, width=width)
    found = {
        "n": 1, "face": "front", "text": "Outside the zones.", "points": [[1200, 442], [1200, 250]],
        "at": [1200, 300],
    }  # fmt: skip
    result = {"stretches": [found], "passed": False, "summary": "3 of 5 met"}
    page.evaluate("(result) => model.host({ result })", result)
    expect(page.locator(".zl-overlay .zl-disc-word")).to_have_text("1")
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for target in page.locator(".zl-pad :is(button, input, select, summary)").all():
        if box := target.bounding_box():
            assert min(box["width"], box["height"]) >= 24, target.evaluate("e => e.outerHTML")
