"""WCAG 2.2 AA on the pad: axe-core, sizes of targets, narrow pages, zoom, forced colours, reduced motion."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import DROP, button, click, commits, spot, surface
from tests.pad.test_pad_keys import RESULT

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
DARK = "body { background: #111; } h1 { color: #eee !important; } select, input { background: #333; }"
WIDTHS = [1280, 768, 390]


def full(show: Show, width: int) -> Page:
    """Open the pad with everything on show that it can have at once."""
    page = show(
        answer=DROP.replace('"rcd":null', '"rcd":{"ma":30,"at":"origin","delayed":false}'), width=width
    )
    page.evaluate(
        "(result) => model.host({ result, saved: 'Saved 14:02', problem: 'The disk is full.' })", RESULT
    )
    button(page, "Points as a table").click()
    button(page, "Zoom in").click()
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    return page


@pytest.mark.parametrize("width", WIDTHS)
def test_axe_finds_nothing_with_everything_on_show(show: Show, width: int) -> None:
    assert violations(full(show, width)) == []


@pytest.mark.parametrize("task", ["corner", "rooted", "covered", "loft", "bare"])
def test_axe_finds_nothing_in_any_exercise_at_its_start(show: Show, task: str) -> None:
    assert violations(show(task)) == []


def test_axe_sees_a_violation_when_there_is_one(show: Show) -> None:
    page = show()
    page.evaluate("document.querySelector('select').removeAttribute('id')")
    assert any(v.startswith("select-name") for v in violations(page))


@pytest.mark.parametrize("width", WIDTHS)
def test_every_target_is_24_pixels_or_more(show: Show, width: int) -> None:
    page = full(show, width)
    for target in page.locator(".zl-pad :is(button, input, select, summary)").all():
        if box := target.bounding_box():
            assert box["width"] >= 24, target.evaluate("e => e.outerHTML")
            assert box["height"] >= 24, target.evaluate("e => e.outerHTML")


@pytest.mark.parametrize("width", [1280, 768, 390, 320])
def test_nothing_is_wider_than_the_page(show: Show, width: int) -> None:
    """320 px is a 1,280 px page at 400 % zoom (WCAG 1.4.10)."""
    page = full(show, width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    cut = page.evaluate(
        "[...document.querySelectorAll('.zl-pad :is(button, td, th, p)')]"
        ".filter((e) => !e.closest('.zl-unseen') && e.scrollWidth > e.clientWidth + 1)"
        ".map((e) => e.outerHTML)"
    )
    assert cut == []


def test_a_hit_circle_reaches_12_pixels_round_a_point(show: Show) -> None:
    page = show(answer=DROP)
    mark = page.locator(".zl-handle").nth(2).bounding_box()
    assert mark
    page.mouse.click(mark["x"] + mark["width"] / 2 - 11.5, mark["y"] + mark["height"] / 2)
    assert page.locator(".zl-held").count() == 1
    assert commits(page) == 0


def test_the_picture_stays_where_it_is_while_one_zooms(show: Show) -> None:
    page = show(width=768)
    before = surface(page).bounding_box()
    button(page, "Zoom in").click()
    assert surface(page).bounding_box() == before


def test_the_picture_stays_where_it_is_whatever_is_read_out(show: Show) -> None:
    page = show(width=390)
    before = surface(page).bounding_box()
    click(page, 1203, 450)
    page.mouse.move(*spot(page, 2203, 1203))
    expect(page.locator(".zl-readout")).to_contain_text("on the centre line of L1")
    assert surface(page).bounding_box() == before


def test_focus_is_seen_on_the_drawing_and_on_buttons(show: Show) -> None:
    page = show()
    page.keyboard.press("Tab")
    seen = []
    for _ in range(4):
        seen.append(page.evaluate("getComputedStyle(document.activeElement).outlineWidth"))
        page.keyboard.press("Tab")
    assert seen == ["3px"] * 4


def test_in_forced_colours_route_and_stretch_differ_from_the_ground(show: Show) -> None:
    page = show(answer=DROP)
    page.emulate_media(forced_colors="active")
    page.evaluate("(result) => model.host({ result })", RESULT)
    colour = "(s) => getComputedStyle(document.querySelector(s)).stroke"
    casing = page.evaluate(colour, ".zl-casing")
    assert page.evaluate(colour, ".zl-leg") != casing
    assert page.evaluate(colour, ".zl-stretch") != casing
    assert page.evaluate("getComputedStyle(document.querySelector('.zl-stretch')).strokeDasharray") != "none"


def test_with_less_motion_asked_for_nothing_moves_by_itself(show: Show) -> None:
    page = show()
    page.emulate_media(reduced_motion="reduce")
    length = page.evaluate("getComputedStyle(document.querySelector('.zl-button')).transitionDuration")
    assert length == "0s"


def test_the_drawing_has_a_name_and_is_told_in_words(show: Show) -> None:
    page = show(answer=DROP)
    ids = (surface(page).get_attribute("aria-describedby") or "").split()
    words = " ".join(page.locator(f"#{one}").text_content() or "" for one in ids)
    assert "Arrow keys move the cross." in words
    assert "A wall 3,600 long and 2,400 high." in words
    assert "Point a: 1,200 from the left corner, 450 above the floor." in words


def test_a_dark_host_changes_nothing(show: Show) -> None:
    page = show(answer=DROP)
    page.add_style_tag(content=DARK)
    expect(page.locator(".zl-pad")).to_have_css("background-color", "rgb(255, 255, 255)")
    assert violations(page) == []


def test_an_outline_stands_in_where_there_is_no_picture(show: Show) -> None:
    page = show("bare")
    assert page.locator(".zl-hung .zl-outline").count() == 4
    click(page, 1203, 450)
    assert commits(page) == 1
