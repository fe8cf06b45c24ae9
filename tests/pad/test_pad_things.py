"""Zones, fixings and joists on a page without a notebook: by mouse, touch, keys alone, numbers alone."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import Fingers, answer, button, click, commits, drag, near, spot
from tests.pad.test_pad_access import WIDTHS
from tests.pad.test_pad_keys import press, reach_the_drawing

pytestmark = pytest.mark.browser
Show = Callable[..., Page]

AREAS = {"areas": [[[0, 2250], [3600, 2400]], [[1130, 0], [1276, 2400]]]}
PLACES = {"places": {"P1": [300, 1500], "C1": [1500, 1400]}}
HOLE = {"x": 1000, "y": 100, "diameter": 20, "protection": "none"}
NOTCH = {"x": 400, "length": 40, "depth": 15, "edge": "top", "protection": "steel-plate"}
CUTS = {"holes": [HOLE, {**HOLE, "x": 1030}], "notches": [NOTCH]}
FULL: dict[str, dict[str, Any]] = {"zones": AREAS, "fixings": PLACES, "joist": CUTS}
FOUND: dict[str, list[dict[str, Any]]] = {
    "zones": [
        {"n": 1, "face": "front", "style": "missed", "rings": [[[0, 0], [150, 0], [150, 2400], [0, 2400]]]},
        {"n": 2, "face": "front", "style": "strayed", "rings": [[[1130, 500], [1276, 500], [1276, 2200]]]},
    ],
    "fixings": [{"n": 1, "face": "front", "at": [550, 1860]}],
    "joist": [
        {"n": 1, "face": "front", "at": [1000, 100]},
        {"n": 2, "face": "front", "at": [1000, 100]},
        {"n": 3, "face": "front", "points": [[1000, 100], [1030, 100]]},
    ],
}
KINDS = list(FULL)


def checked(page: Page, kind: str) -> None:
    """Show what a check could have found."""
    found = [{**one, "text": f"Number {one['n']} is told here."} for one in FOUND[kind]]
    result = {"stretches": found, "passed": False, "summary": "1 of 4 met"}
    page.evaluate("(result) => model.host({ result, saved: 'Saved 14:02' })", result)


def full(show: Show, kind: str, width: int) -> Page:
    page = show(kind, answer=json.dumps(FULL[kind]), width=width)
    checked(page, kind)
    if kind == "zones":
        button(page, "Areas as a table").click()
        button(page, "Adjust").click()
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    return page


def fill(page: Page, name: str, value: str) -> None:
    field = page.get_by_label(name, exact=True)
    field.fill(value)
    field.press("Tab")


# --- by mouse --------------------------------------------------------------------------------------


def test_areas_are_dragged_clicked_and_resized_by_mouse(show: Show) -> None:
    page = show("zones")
    drag(page, (20, 2380), (3580, 2252))
    assert near(answer(page)["areas"][0], [[0, 2250], [3600, 2400]], within=30)
    click(page, 1132, 10)
    expect(page.locator(".zl-readout")).to_contain_text("Area b")
    click(page, 1274, 2390)
    assert answer(page)["areas"][1] == [[1130, 0], [1276, 2400]]
    assert commits(page) == 2
    button(page, "Adjust").click()
    drag(page, (1203, 2400), (1203, 1800))
    assert near(answer(page)["areas"][1], [[1130, 0], [1276, 1800]])
    drag(page, (1203, 900), (1603, 900))
    assert near(answer(page)["areas"][1], [[1530, 0], [1676, 1800]])
    button(page, "Undo").click()
    assert near(answer(page)["areas"][1], [[1130, 0], [1276, 1800]])


def test_a_shape_under_a_slope_is_clicked_and_closed(show: Show) -> None:
    page = show("slope")
    button(page, "Shape").click()
    for x, y in [(0, 1000), (3000, 2400), (3000, 2590)]:
        click(page, x, y)
    assert commits(page) == 0
    button(page, "Close shape").click()
    (ring,) = answer(page)["areas"]
    assert near(ring, [[0, 1000], [3000, 2400], [3000, 2600]], within=30)


def test_things_are_hung_and_dragged_by_mouse(show: Show) -> None:
    page = show("fixings")
    page.mouse.move(*spot(page, 550, 1700))
    assert page.locator(".zl-next").count() == 1
    expect(page.locator(".zl-readout")).to_contain_text("P1: left edge")
    click(page, 550, 1700)
    button(page, "C1 cupboard").click()
    click(page, 1800, 1750)
    places = answer(page)["places"]
    assert near([places["P1"], places["C1"]], [[300, 1500], [1500, 1400]])
    drag(page, (1700, 1700), (2200, 1700))
    assert near([answer(page)["places"]["C1"]], [[2000, 1400]])
    assert commits(page) == 3


def test_cuts_are_made_and_moved_by_mouse(show: Show) -> None:
    page = show("joist")
    click(page, 1000, 100)
    button(page, "Notch").click()
    click(page, 400, 190)
    cuts = answer(page)
    assert near([[cuts["holes"][0]["x"], cuts["holes"][0]["y"]]], [[1000, 100]])
    assert cuts["notches"][0]["edge"] == "top"
    drag(page, (1000, 100), (1300, 100))
    assert near([[answer(page)["holes"][0]["x"], 0]], [[1300, 0]])
    page.get_by_label("Hole A1, covering").select_option("steel-plate")
    assert answer(page)["holes"][0]["protection"] == "steel-plate"
    assert page.locator(".zl-plate").count() == 2


# --- by touch --------------------------------------------------------------------------------------


def test_areas_are_tapped_and_dragged_by_touch(show: Show) -> None:
    page = show("zones", width=390, touch=True)
    page.locator(".zl-surface").scroll_into_view_if_needed()
    page.touchscreen.tap(*spot(page, 1135, 5))
    page.touchscreen.tap(*spot(page, 1270, 2395))
    assert answer(page)["areas"] == [[[1130, 0], [1276, 2400]]]
    fingers = Fingers(page)
    fingers.send("touchStart", spot(page, 5, 2390))
    fingers.send("touchMove", spot(page, 1800, 2300))
    fingers.send("touchMove", spot(page, 3590, 2250))
    fingers.send("touchEnd")
    assert near(answer(page)["areas"][1], [[0, 2250], [3600, 2400]], within=40)


def test_a_thing_is_hung_and_moved_by_touch(show: Show) -> None:
    page = show("fixings", width=390, touch=True)
    page.touchscreen.tap(*spot(page, 550, 1700))
    assert near([answer(page)["places"]["P1"]], [[300, 1500]], within=40)
    page.wait_for_timeout(450)
    page.touchscreen.tap(*spot(page, 550, 1700))
    page.touchscreen.tap(*spot(page, 1150, 1700))
    assert near([answer(page)["places"]["P1"]], [[900, 1500]], within=60)


def test_a_hole_is_made_and_moved_by_touch(show: Show) -> None:
    page = show("joist", width=390, touch=True)
    page.touchscreen.tap(*spot(page, 1000, 100))
    assert near([[answer(page)["holes"][0]["x"], 0]], [[1000, 0]], within=40)
    fingers = Fingers(page)
    fingers.send("touchStart", spot(page, 1000, 100))
    fingers.send("touchMove", spot(page, 1400, 100))
    fingers.send("touchMove", spot(page, 2000, 100))
    fingers.send("touchEnd")
    assert near([[answer(page)["holes"][0]["x"], 0]], [[2000, 0]], within=40)


# --- by keys alone ---------------------------------------------------------------------------------


def test_an_area_is_drawn_mended_and_deleted_by_keys_alone(show: Show) -> None:
    page = show("zones")
    reach_the_drawing(page)
    press(page, "a", "Enter", "a", "Enter")
    assert answer(page)["areas"] == [[[1130, 407], [1276, 493]]]
    press(page, "c", "c", "c", "ArrowUp", "Enter")
    assert answer(page)["areas"] == [[[1130, 407], [1276, 495]]]
    press(page, "Control+z")
    assert answer(page)["areas"] == [[[1130, 407], [1276, 493]]]
    press(page, "PageDown", "Backspace")
    assert answer(page)["areas"] == []


def test_a_thing_is_hung_and_moved_by_keys_alone(show: Show) -> None:
    page = show("fixings")
    reach_the_drawing(page)
    press(page, "PageDown", "PageDown", "Enter")
    (place,) = answer(page)["places"].values()
    assert list(answer(page)["places"]) == ["C1"]
    press(page, "Enter", "Shift+ArrowRight", "ArrowUp", "Enter")
    x, y = answer(page)["places"]["C1"]
    assert x - place[0] == 50
    assert y - place[1] == 5
    assert commits(page) == 2


def test_cuts_are_made_by_keys_alone(show: Show) -> None:
    page = show("joist")
    reach_the_drawing(page)
    press(page, "Shift+ArrowLeft", "Enter", "ArrowRight", "ArrowRight", "Enter")
    assert [one["x"] for one in answer(page)["holes"]] == [1450, 1460]
    press(page, "PageUp", "Backspace")
    assert [one["x"] for one in answer(page)["holes"]] == [1460]


# --- by numbers alone ------------------------------------------------------------------------------


def test_an_area_is_typed_changed_and_deleted_in_the_table(show: Show) -> None:
    page = show("zones")
    button(page, "Areas as a table").press("Enter")
    for edge, value in zip(["left", "lower", "right", "upper"], ["0", "2250", "3600", "2390"], strict=True):
        fill(page, f"New area, {edge} edge (mm)", value)
    button(page, "Add area").press("Enter")
    fill(page, "Area a, upper edge (mm)", "2400")
    assert answer(page)["areas"] == [[[0, 2250], [3600, 2400]]]
    fill(page, "Area a, upper edge (mm)", "9999")
    expect(page.locator(".zl-trouble").first).to_contain_text("must be a number from 0 to 2,400")
    assert answer(page)["areas"] == [[[0, 2250], [3600, 2400]]]
    button(page, "Delete Area a").press("Enter")
    assert answer(page)["areas"] == []


def test_a_thing_is_hung_and_taken_down_by_numbers(show: Show) -> None:
    page = show("fixings")
    fill(page, "P1, left edge (mm)", "300")
    assert commits(page) == 0
    fill(page, "P1, lower edge (mm)", "1500")
    assert answer(page)["places"] == {"P1": [300, 1500]}
    button(page, "Take down P1").press("Enter")
    assert answer(page)["places"] == {}


def test_cuts_are_typed(show: Show) -> None:
    page = show("joist")
    for words, value in [("from the left support", "1000"), ("above the bottom", "100"), ("diameter", "16")]:
        fill(page, f"New hole, {words} (mm)", value)
    button(page, "Add hole").press("Enter")
    values = [("middle, from the left support", "400"), ("length", "30"), ("depth", "15")]
    for words, value in values:
        fill(page, f"New notch, {words} (mm)", value)
    button(page, "Add notch").press("Enter")
    page.get_by_label("Notch B1, edge").select_option("bottom")
    hole = {"x": 1000, "y": 100, "diameter": 16, "protection": "none"}
    notch = {"x": 400, "length": 30, "depth": 15, "edge": "bottom", "protection": "none"}
    assert answer(page) == {"holes": [hole], "notches": [notch]}


# --- what one sees and hears -----------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_numbers_on_the_drawing_are_those_of_the_messages_and_do_not_meet(show: Show, kind: str) -> None:
    page = full(show, kind, 1280)
    drawn = page.locator(".zl-disc-word").all_text_contents()
    assert drawn == [str(one["n"]) for one in FOUND[kind]]
    boxes = [one.bounding_box() for one in page.locator(".zl-disc").all()]
    places = [(box["x"], box["y"]) for box in boxes if box]
    apart = [max(abs(a[0] - b[0]), abs(a[1] - b[1])) for i, a in enumerate(places) for b in places[:i]]
    assert all(one >= 20 for one in apart)
    page.locator(".zl-message").last.click()
    assert page.evaluate("model.get('focus')") == len(drawn)
    assert page.locator(".zl-overlay .zl-lit").count() >= 1


@pytest.mark.parametrize("width", [390, 768, 900, 1100])
@pytest.mark.parametrize("kind", KINDS)
def test_the_picture_stays_where_it_is_whatever_is_read_out(show: Show, kind: str, width: int) -> None:
    page = show(kind, answer=json.dumps(FULL[kind]), width=width)
    before = page.locator(".zl-surface").bounding_box()
    if kind != "joist":
        drag(page, (1150, 440), (2580, 100))
    for x, y in [(1150, 40), (2150, 195), (2640, 140)]:
        page.mouse.move(*spot(page, x, y))
        assert page.locator(".zl-surface").bounding_box() == before


@pytest.mark.parametrize("kind", KINDS)
def test_a_change_is_said_and_told_in_words(show: Show, kind: str) -> None:
    page = show(kind, answer=json.dumps(FULL[kind]))
    expect(page.locator(".zl-folds p").first).to_contain_text(
        {"zones": "Area a", "fixings": "P1", "joist": "A1"}[kind]
    )
    button(page, "Clear").click()
    expect(page.locator("[role=status]")).to_have_text("All removed. Undo brings it back.")
    button(page, "Undo").click()
    assert answer(page) == FULL[kind]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("kind", KINDS)
def test_axe_targets_and_widths(show: Show, kind: str, width: int) -> None:
    page = full(show, kind, width)
    assert violations(page) == []
    for target in page.locator(".zl-pad :is(button, input, select, summary)").all():
        if box := target.bounding_box():
            assert min(box["width"], box["height"]) >= 24, target.evaluate("e => e.outerHTML")
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("kind", KINDS)
def test_at_400_per_cent_nothing_is_wider_than_the_page(show: Show, kind: str) -> None:
    """320 px is a 1,280 px page at 400 % zoom (WCAG 1.4.10)."""
    page = full(show, kind, 320)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize(
    ("kind", "shape"), [("zones", ".zl-area"), ("fixings", ".zl-item"), ("joist", ".zl-cut")]
)
def test_in_forced_colours_what_is_drawn_is_seen(show: Show, kind: str, shape: str) -> None:
    page = full(show, kind, 1280)
    page.emulate_media(forced_colors="active")
    look = "(s) => getComputedStyle(document.querySelector(s)).stroke"
    assert page.evaluate(look, shape) != page.evaluate(
        "getComputedStyle(document.querySelector('.zl-surface')).backgroundColor"
    )
