"""A route round a room on the page: its walls in a row, and a void to cross."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import answer, button, click, near, spot

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
ROOM = "bedroom-over-the-ceiling"
OVER = [[13200, 1200], [13200, 2400], [9650, 2400], [9650, 1700]]
VIA = ["wall", "ceiling-void", "wall"]


def drawing(page: Page) -> None:
    page.get_by_role("application", name="Drawing of the room").focus()


def test_over_the_ceiling_by_mouse(show: Show) -> None:
    page = show(bank=ROOM)
    for x, y in OVER[1:]:
        click(page, x, y)
        page.wait_for_timeout(420)
    page.get_by_label("Way of leg 2").select_option("ceiling-void")
    assert near(answer(page)["points"], OVER)
    assert answer(page)["via"] == VIA
    assert page.locator(".zl-void").count() == 1
    page.mouse.move(*spot(page, 4650, 2260))
    expect(page.locator(".zl-readout")).to_contain_text("on bed.2, 1,250 from the left corner")


def test_over_the_ceiling_by_keys_alone(show: Show) -> None:
    page = show(bank=ROOM)
    drawing(page)
    page.keyboard.press("PageDown")
    for _ in range(24):
        page.keyboard.press("Shift+ArrowUp")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("Point b placed: on bed.8")
    page.keyboard.press("a")
    page.keyboard.press("Enter")
    assert answer(page)["points"][1] == [13200, 2400]
    page.get_by_label("Way of leg 1").focus()
    page.keyboard.press("ArrowDown")
    assert answer(page)["via"][0] == "ceiling-void"


def test_over_the_ceiling_by_the_table_alone(show: Show) -> None:
    page = show(bank=ROOM)
    button(page, "Points as a table").click()
    for wall, along, high in [("bed.8", 1500, 2400), ("bed.5", 600, 2400), ("bed.5", 600, 1700)]:
        page.get_by_label("New point, wall").select_option(wall)
        page.get_by_label("New point, from the left corner of its wall in mm").fill(str(along))
        page.get_by_label("New point, above the floor in mm").fill(str(high))
        button(page, "Add point").click()
    page.get_by_label("Way of leg 2").select_option("ceiling-void")
    assert answer(page)["points"] == OVER
    page.get_by_label("Point d, wall").select_option("bed.7")
    assert answer(page)["points"][3] == [11200, 1700]


def test_on_a_phone_the_pad_opens_where_one_begins_and_moves_along_the_row(show: Show) -> None:
    page = show(bank=ROOM, width=390, touch=True)
    button(page, "View left").wait_for()
    across, down = spot(page, 13200, 2400)
    assert 0 < across < 390
    page.touchscreen.tap(across, down)
    assert near(answer(page)["points"], OVER[:2], within=40)
    button(page, "View left").tap()
    assert spot(page, 13200, 2400)[0] > across + 60
    button(page, "Show the whole room").tap()
    assert spot(page, 13200, 2400)[0] < 390


def on_show(page: Page, x: float) -> bool:
    """Tell whether the wall at an x is seen from floor to ceiling."""
    surface = page.locator(".zl-surface").bounding_box()
    assert surface is not None
    (across, top), (_, foot) = spot(page, x, 2400), spot(page, x, 0)
    left, above = surface["x"], surface["y"]
    return left <= across <= left + surface["width"] and above <= top < foot <= above + surface["height"]


@pytest.mark.parametrize("width", [390, 320])
def test_on_a_phone_one_goes_from_wall_to_wall(show: Show, width: int) -> None:
    page = show(bank=ROOM, width=width, touch=True)
    told = page.locator(".zl-wall-on-show")
    expect(told).to_have_text("Wall 8 of 8: bed.8")
    assert all(on_show(page, x) for x in (11_700, 15_900))
    page.touchscreen.tap(*spot(page, 13_200, 2400))
    for name, words, ends in [
        ("Next wall", "Wall 1 of 8: bed.1", (0, 3400)),
        ("Next wall", "Wall 2 of 8: bed.2", (3400, 7600)),
        ("Previous wall", "Wall 1 of 8: bed.1", (0, 3400)),
    ]:
        step = button(page, name)
        box = step.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
        step.tap()
        expect(told).to_have_text(words)
        assert all(on_show(page, x) for x in ends)
    page.touchscreen.tap(*spot(page, 500, 2400))  # from bed.8 over the end of the row to bed.1
    assert near(answer(page)["points"], [[13_200, 1200], [13_200, 2400], [16_400, 2400]], within=40)
    button(page, "Show the whole room").tap()
    expect(told).to_have_text("All 8 walls")
    button(page, "Next wall").tap()
    expect(told).to_have_text("Wall 1 of 8: bed.1")
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_keys_go_from_wall_to_wall_and_the_cross_goes_along(show: Show) -> None:
    page = show(bank=ROOM, width=390)
    drawing(page)
    for key, words in [("n", "Wall 1 of 8: bed.1"), ("n", "Wall 2 of 8: bed.2"), ("p", "Wall 1 of 8: bed.1")]:
        page.keyboard.press(key)
        expect(page.get_by_role("status")).to_contain_text(words)
    page.keyboard.press("ArrowRight")
    expect(page.locator(".zl-readout")).to_contain_text("on bed.1, 1,695 from the right corner")
    expect(page.locator(".zl-wall-on-show")).to_have_text("Wall 1 of 8: bed.1")


@pytest.mark.parametrize("width", [1280, 390])
def test_axe_finds_nothing_with_everything_on_show(show: Show, width: int) -> None:
    drawn = f'{{"points": {OVER}, "via": ["wall", "ceiling-void", "wall"]}}'
    page = show(bank=ROOM, answer=drawn, width=width)
    button(page, "Points as a table").click()
    found = {"n": 1, "face": "front", "text": "In no zone.", "points": [[9650, 2000], [9650, 1700]]}
    result = {"stretches": [found], "passed": False, "summary": "3 of 4 met"}
    page.evaluate("(result) => model.host({ result })", result)
    expect(page.locator(".zl-overlay .zl-disc-word")).to_have_text("1")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
