"""The pad worked by keyboard alone and by its tables alone, and what it says to its host."""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.pad.driving import DROP, answer, button, click, commits, surface

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
WANTED = [[1203, 450], [1203, 2330], [303, 2330]]
STRETCHES: list[dict[str, Any]] = [
    {"n": 1, "face": "front", "points": [[1200, 600], [1200, 1900]], "text": "From a to b: first."},
    {"n": 2, "face": "rear", "points": [[900, 2330], [400, 2330]], "text": "From b to c: second."},
]
RESULT = {"stretches": STRETCHES, "passed": False, "summary": "4 of 6 rules met"}


def press(page: Page, *keys: str) -> None:
    for key in keys:
        page.keyboard.press(key)


def reach_the_drawing(page: Page) -> None:
    """Go there as one does without a mouse: Tab from the top of the page."""
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.getAttribute('role')") == "application":
            return
    pytest.fail("Tab did not lead to the drawing")


def test_a_route_is_drawn_and_mended_by_keys_alone(show: Show) -> None:
    page = show()
    reach_the_drawing(page)
    press(page, "a", "Enter", *["Shift+ArrowUp"] * 37, *["ArrowUp"] * 6, "Enter")
    press(page, *["Shift+ArrowLeft"] * 18, *["Alt+ArrowRight"] * 3, "Enter")
    assert answer(page)["points"][:2] == WANTED[:2]
    x, y = answer(page)["points"][2]
    press(page, "Enter", "ArrowLeft", "Enter")
    assert answer(page)["points"][2][0] < x
    press(page, "Control+z")
    assert answer(page)["points"][2] == [x, y]
    press(page, "Backspace")
    assert len(answer(page)["points"]) == 2


def test_key_moves_send_nothing_until_the_point_is_put_down(show: Show) -> None:
    page = show(answer=DROP)
    reach_the_drawing(page)
    press(page, "PageUp", "Enter", "ArrowLeft", "ArrowLeft")
    assert commits(page) == 0
    press(page, "Escape")
    assert commits(page) == 0
    press(page, "Enter", "ArrowLeft", "Enter")
    assert commits(page) == 1
    assert answer(page)["points"][2] == [295, 2330]


def test_each_key_is_told_in_the_live_region(show: Show) -> None:
    page = show(answer=DROP)
    reach_the_drawing(page)
    status = page.get_by_role("status")
    press(page, "PageUp")
    expect(status).to_have_text("Point c: 300 from the left corner, 70 below the ceiling")
    press(page, "Enter")
    expect(status).to_contain_text("Point c picked up")
    press(page, *["ArrowRight"] * 10)
    expect(status).to_have_text("Point c: 350 from the left corner, 70 below the ceiling, in line with b")


def test_tab_leaves_and_keys_do_not_reach_the_host(show: Show) -> None:
    page = show(answer=DROP)
    page.evaluate("window.heard = []; document.addEventListener('keydown', (e) => heard.push(e.key))")
    surface(page).focus()
    press(page, "d", "x", "ArrowLeft", "1", "Control+z", "Tab")
    assert page.evaluate("heard") == ["Tab"]
    assert page.evaluate("document.activeElement.getAttribute('role')") != "application"
    assert page.locator(".zl-pad").get_attribute("data-lm-suppress-shortcuts") == "true"


def test_the_bar_of_tools_is_one_tab_stop_with_arrow_keys_inside(show: Show) -> None:
    page = show(answer=DROP)
    button(page, "Draw").focus()
    press(page, "ArrowRight")
    expect(button(page, "Adjust")).to_be_focused()
    press(page, "ArrowLeft", "ArrowLeft")
    expect(button(page, "Clear")).to_be_focused()
    press(page, "Tab")
    expect(surface(page)).to_be_focused()


def test_plus_minus_and_nought_zoom(show: Show) -> None:
    page = show()
    reach_the_drawing(page)
    wide = "document.querySelector('.zl-overlay').viewBox.baseVal.width"
    press(page, "+", "+")
    assert page.evaluate(wide) < 2000
    press(page, "-")
    assert 2000 < page.evaluate(wide) < 4000
    press(page, "0")
    assert page.evaluate(wide) == 4000


def test_the_view_follows_the_cross(show: Show) -> None:
    page = show(answer=DROP)
    reach_the_drawing(page)
    press(page, "+", "+", "+", "PageUp")
    box = surface(page).bounding_box()
    mark = page.locator(".zl-selected").bounding_box()
    assert box
    assert mark
    assert box["x"] < mark["x"] < box["x"] + box["width"]
    assert box["y"] < mark["y"] < box["y"] + box["height"]


def test_a_route_is_made_by_the_table_alone(show: Show) -> None:
    page = show()
    button(page, "Points as a table").click()
    for x, y in WANTED:
        page.get_by_label("New point, from the left in mm").fill(str(x))
        page.get_by_label("New point, above the floor in mm").fill(str(y))
        button(page, "Add point").click()
    assert answer(page)["points"] == WANTED
    page.get_by_label("Point c, from the left in mm").fill("150")
    press(page, "Enter")
    assert answer(page)["points"][2] == [150, 2330]
    button(page, "Delete point c").click()
    assert answer(page)["points"] == WANTED[:2]
    assert commits(page) == 5


def test_depth_and_covering_are_set_per_leg_and_passed_on(show: Show) -> None:
    page = show(answer=DROP)
    page.get_by_label("Depth of leg 1 in mm").fill("55")
    press(page, "Tab")
    page.get_by_label("Covering of leg 2").select_option("steel-plate")
    assert answer(page)["depth"] == [55, 30]
    assert answer(page)["protection"] == ["none", "steel-plate"]
    click(page, 300, 1000)
    assert answer(page)["depth"] == [55, 30, 30]
    assert answer(page)["protection"] == ["none", "steel-plate", "steel-plate"]


@pytest.mark.parametrize("typed", ["", "-5", "900"])
def test_a_depth_that_cannot_be_is_told_of_and_changes_nothing(show: Show, typed: str) -> None:
    page = show(answer=DROP)
    field = page.get_by_label("Depth of leg 1 in mm")
    field.fill(typed)
    press(page, "Tab")
    expect(page.get_by_role("status")).to_contain_text(
        "must be a number from 0 to 140. It was left as it was."
    )
    expect(page.locator(".zl-trouble:visible")).to_contain_text("It was left as it was.")
    expect(field).to_have_value("20")
    assert commits(page) == 0


def test_a_new_point_without_numbers_is_told_of(show: Show) -> None:
    page = show()
    button(page, "Points as a table").click()
    button(page, "Add point").click()
    expect(page.get_by_role("status")).to_contain_text("A new point needs two numbers, in mm.")
    assert commits(page) == 0


def test_a_value_half_typed_survives_a_change_from_elsewhere(show: Show) -> None:
    page = show(answer=DROP)
    field = page.get_by_label("Depth of leg 1 in mm")
    field.fill("5")
    page.evaluate(
        "(answer) => model.host({ answer: JSON.parse(answer) })", DROP.replace("[20,30]", "[25,30]")
    )
    expect(field).to_have_value("5")
    press(page, "5", "Enter")
    assert answer(page)["depth"] == [55, 30]


def test_the_rcd_is_set_where_the_exercise_opens_it(show: Show) -> None:
    page = show()
    page.get_by_label("Rating").select_option("30")
    page.get_by_label("Where it sits").select_option("outlet")
    page.get_by_label("Time-delayed").check()
    assert answer(page)["rcd"] == {"ma": 30, "at": "outlet", "delayed": True}
    page.get_by_label("Rating").select_option("none")
    assert answer(page)["rcd"] is None
    expect(page.get_by_label("Where it sits")).to_be_hidden()


def test_only_what_the_exercise_opens_is_there(show: Show) -> None:
    page = show("covered")
    for name in ("Draw", "Adjust", "Delete point", "Points as a table"):
        expect(button(page, name)).to_be_hidden()
    expect(page.get_by_label("Covering of leg 2")).to_be_visible()
    assert page.get_by_label("Depth of leg 1 in mm").count() == 0
    expect(page.get_by_label("Rating")).to_be_hidden()
    click(page, 700, 700)
    assert commits(page) == 0


def test_a_result_is_drawn_numbered_and_lit_by_its_message(show: Show) -> None:
    page = show(answer=DROP)
    page.evaluate("(result) => model.host({ result })", RESULT)
    assert page.locator(".zl-stretch").count() == 1
    expect(page.locator(".zl-disc-word")).to_have_text("1")
    page.get_by_role("button", name="From b to c: second.").focus()
    expect(button(page, "Rear")).to_have_attribute("aria-pressed", "true")
    expect(page.locator(".zl-disc-word")).to_have_text("2")
    assert page.evaluate("model.get('focus')") == 2
    page.evaluate("model.host({ focus: 1 })")
    expect(page.locator(".zl-stretch.zl-lit")).to_have_count(1)
    expect(button(page, "Front")).to_have_attribute("aria-pressed", "true")


def test_where_the_host_has_a_panel_of_its_own_stretches_are_drawn_without_words(show: Show) -> None:
    page = show(answer=DROP)
    stretches = [{**stretch, "text": ""} for stretch in STRETCHES]
    page.evaluate(
        "(result) => model.host({ result })", {"stretches": stretches, "passed": False, "summary": ""}
    )
    assert page.locator(".zl-stretch").count() == 1
    expect(page.locator(".zl-result")).to_be_hidden()


def test_a_changed_answer_takes_the_old_result_off_the_drawing(show: Show) -> None:
    page = show(answer=DROP)
    page.evaluate("(result) => model.host({ result })", RESULT)
    click(page, 300, 900)
    assert page.locator(".zl-stretch").count() == 0
    expect(page.get_by_text("4 of 6 rules met")).to_be_hidden()


def test_words_from_outside_stay_words(show: Show) -> None:
    page = show(answer=DROP)
    trap = "<img src=x onerror='window.caught=1'>"
    stretch = {"n": 1, "face": "front", "points": [[1200, 600], [1200, 1900]], "text": trap}
    result = {"stretches": [stretch], "passed": False, "summary": trap}
    page.evaluate("(r) => model.host({ result: r, problem: r.summary, saved: r.summary })", result)
    assert page.locator(".zl-pad img").count() == 0
    expect(page.get_by_role("alert")).to_have_text(trap)


def test_saving_is_seen_and_so_is_its_failure(show: Show) -> None:
    page = show(answer=DROP)
    page.evaluate("model.host({ saved: 'Saved 14:02' })")
    expect(page.locator(".zl-saved")).to_have_text("Saved 14:02")
    button(page, "Delete point").click()
    expect(page.locator(".zl-saved")).to_have_text("Saving…")
    page.evaluate("model.host({ saved: '' }); model.host({ saved: 'Saved 14:02' })")
    expect(page.locator(".zl-saved")).to_have_text("Saved 14:02")
    page.evaluate("model.host({ problem: 'The disk is full.' })")
    expect(page.get_by_role("alert")).to_have_text("The disk is full.")


def test_a_host_that_does_not_answer_is_told_of(show: Show) -> None:
    page = show(answer=DROP)
    button(page, "Delete point").click()
    expect(page.locator(".zl-saved")).to_have_text(
        "Not saved yet. Your answer is still here.", timeout=12_000
    )


def test_an_answer_from_the_host_is_drawn_and_not_sent_back(show: Show) -> None:
    page = show()
    page.evaluate("(answer) => model.host({ answer: JSON.parse(answer) })", DROP)
    assert page.locator(".zl-handle").count() == 3
    assert commits(page) == 0


def test_a_closed_view_leaves_nothing_behind(show: Show) -> None:
    page = show()
    page.evaluate("window.close()")
    assert page.locator(".zl-pad").count() == 0
    assert page.evaluate("Object.values(model.handlers).reduce((n, s) => n + s.size, 0)") == 0


def test_a_new_task_starts_the_pad_afresh(show: Show) -> None:
    page = show()
    page.evaluate(
        "async () => { const { TASKS } = await import('./tasks.js');"
        " model.host({ answer: {}, task: TASKS.rooted }); }"
    )
    expect(page.locator(".zl-title")).to_contain_text("from the switch to the corner")
    assert page.locator("rect.zl-handle").count() == 1


def test_reading_aloud_says_the_exercise_and_the_drawing(show: Show) -> None:
    page = show(answer=DROP)
    page.evaluate("() => { speechSynthesis.speak = (u) => { window.spoken = u.text; }; }")
    button(page, "Read aloud").click()
    spoken = page.evaluate("spoken")
    assert spoken.startswith("Number 4, front bedroom")
    assert "Point c: 300 from the left corner, 70 below the ceiling." in spoken
    button(page, "Stop reading").click()
    expect(button(page, "Read aloud")).to_be_visible()
