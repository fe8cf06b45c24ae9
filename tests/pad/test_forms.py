"""Choices and numbers on the page: by mouse, touch and keys; the form is its own table."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.axe import violations
from tests.pad.driving import answer, button, commits

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
SCREWS, CHASE = "landing-which-screws", "utility-deepest-chase"
FORMS = [SCREWS, CHASE, "porch-what-to-say", "bedroom-how-far-out"]


def test_choices_are_ticked_by_mouse_anywhere_on_their_line(show: Show) -> None:
    page = show(bank=SCREWS)
    page.locator(".zl-option", has_text="F2: 1,150 mm").click()
    page.get_by_role("checkbox", name="F5:").check()
    assert answer(page)["chosen"] == ["F2", "F5"]
    assert commits(page) == 2
    button(page, "Undo").click()
    assert answer(page)["chosen"] == ["F2"]
    expect(page.get_by_role("checkbox", name="F5:")).not_to_be_checked()
    expect(page.get_by_role("status")).to_have_text("Undone. 1 is ticked.")


def test_choices_are_ticked_by_touch(show: Show) -> None:
    page = show(bank=SCREWS, width=390, touch=True)
    page.locator(".zl-option", has_text="F4: 2,700 mm").tap()
    assert answer(page)["chosen"] == ["F4"]


def test_choices_are_ticked_by_keys_alone(show: Show) -> None:
    page = show(bank=SCREWS)
    page.get_by_role("checkbox").first.focus()
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert len(answer(page)["chosen"]) == 2
    assert page.evaluate("getComputedStyle(document.activeElement).outlineWidth") == "3px"


def test_the_number_of_a_message_stands_beside_its_choice_until_the_answer_changes(show: Show) -> None:
    page = show(bank=SCREWS, answer='{"chosen": ["F4"]}')
    found = {"n": 1, "face": "front", "text": "F4 lies above S2.", "option": "F4"}
    result = {"stretches": [found], "passed": False, "summary": "0 of 1 met"}
    page.evaluate("(result) => model.host({ result })", result)
    beside = page.locator(".zl-option .zl-number-disc:visible")
    expect(beside).to_have_text("See message 1")
    page.get_by_role("checkbox", name="F2:").check()
    expect(beside).to_have_count(0)


@pytest.mark.parametrize(("typed", "told"), [("12,5", ""), ("deep", "This is not a number yet.")])
def test_a_number_is_typed_and_stays_as_it_was_written(show: Show, typed: str, told: str) -> None:
    page = show(bank=CHASE)
    field = page.get_by_label("Your number in mm")
    field.focus()
    page.keyboard.type(typed)
    page.keyboard.press("Enter")
    assert answer(page) == {"value": typed}
    expect(field).to_have_value(typed)
    expect(page.locator(".zl-trouble")).to_contain_text(told)
    expect(page.locator(".zl-trouble")).to_be_visible(visible=bool(told))
    expect(field).to_have_attribute("aria-invalid", "true" if told else "false")


def test_a_number_is_typed_on_a_phone(show: Show) -> None:
    page = show(bank=CHASE, width=390, touch=True)
    field = page.get_by_label("Your number in mm")
    field.tap()
    field.fill("34")
    field.blur()
    assert answer(page) == {"value": "34"}
    expect(field).to_have_attribute("inputmode", "decimal")


def test_the_drawing_names_what_is_asked_about(show: Show) -> None:
    page = show(bank="bedroom-how-far-out")
    expect(page.get_by_text("The question is about cable R1, seen from the front.")).to_be_visible()
    assert "Route R1: a at 2,400, 450" in (page.get_by_role("img").first.get_attribute("aria-label") or "")


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("width", [1280, 390, 320])
def test_axe_finds_nothing_and_the_page_is_no_wider_than_the_window(
    show: Show, name: str, width: int
) -> None:
    page = show(bank=name, width=width)
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("name", FORMS)
def test_every_target_is_24_pixels_or_more(show: Show, name: str) -> None:
    for target in show(bank=name, width=390).locator(".zl-pad :is(button, input, summary)").all():
        if box := target.bounding_box():
            assert min(box["width"], box["height"]) >= 24, target.evaluate("e => e.outerHTML")
