"""The pad worked by mouse and by touch on a page without a notebook."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.pad.driving import DROP, Fingers, answer, button, click, commits, drag, near, spot, surface

pytestmark = pytest.mark.browser
Show = Callable[..., Page]
MOVES = """([x, y]) => {
  const on = document.querySelector(".zl-surface");
  const move = (x) => new PointerEvent("pointermove", { clientX: x, clientY: y, pointerType: "mouse" });
  const timed = (i) => {
    const start = performance.now();
    on.dispatchEvent(move(x + i));
    return performance.now() - start;
  };
  return Array.from({ length: 40 }, (_, i) => timed(i)).sort((a, b) => a - b)[20];
}"""


def test_clicks_place_points_level_and_upright_and_snap_to_the_socket(show: Show) -> None:
    page = show()
    click(page, 1212, 456)
    click(page, 1250, 2330)
    click(page, 300, 2280)
    points = answer(page)["points"]
    assert points[0] == [1203, 450]
    assert points[1][0] == 1203
    assert points[1][1] == points[2][1]
    assert near(points, [[1203, 450], [1203, 2330], [300, 2330]])
    assert commits(page) == 3


def test_a_move_of_the_mouse_is_drawn_at_once_and_sends_nothing(show: Show) -> None:
    page = show(answer=DROP)
    page.mouse.move(*spot(page, 300, 1500))
    assert page.locator(".zl-band").count() == 1
    expect(page.locator(".zl-readout")).to_contain_text("300 from the left corner, 9")
    assert page.evaluate("model.sent") == []


def test_the_snap_to_a_centre_line_is_shown_and_named(show: Show) -> None:
    page = show()
    page.mouse.move(*spot(page, 2215, 1800))
    words = "1,400 from the right corner, 600 below the ceiling, on the centre line of L1"
    expect(page.locator(".zl-readout")).to_have_text(words)
    assert page.locator(".zl-guide").count() == 1
    expect(page.locator(".zl-guide-word")).to_have_text("centre of L1")


def test_a_point_is_dragged_with_one_commit_at_release(show: Show) -> None:
    page = show(answer=DROP)
    drag(page, (300, 2330), (600, 2330))
    assert near(answer(page)["points"], [[1200, 450], [1200, 2330], [600, 2330]])
    assert commits(page) == 1


def test_a_point_is_picked_up_with_one_click_and_put_down_with_the_next(show: Show) -> None:
    page = show(answer=DROP)
    click(page, 300, 2330)
    expect(page.get_by_role("status")).to_contain_text("Point c picked up")
    assert commits(page) == 0
    click(page, 600, 2330)
    assert near(answer(page)["points"], [[1200, 450], [1200, 2330], [600, 2330]])
    assert commits(page) == 1


def test_escape_while_dragging_puts_the_point_back(show: Show) -> None:
    page = show(answer=DROP)
    surface(page).focus()
    page.mouse.move(*spot(page, 300, 2330))
    page.mouse.down()
    page.mouse.move(*spot(page, 600, 1500), steps=4)
    page.keyboard.press("Escape")
    page.mouse.up()
    assert commits(page) == 0
    assert near(page.evaluate("model.get('answer').points"), [[1200, 450], [1200, 2330], [300, 2330]], 0)


def test_a_straight_leg_is_dragged_as_a_whole(show: Show) -> None:
    page = show(answer=DROP)
    drag(page, (700, 2330), (760, 2200))
    assert near(answer(page)["points"], [[1200, 450], [1200, 2200], [300, 2200]])


def test_a_click_on_a_leg_puts_a_point_in(show: Show) -> None:
    page = show(answer=DROP)
    click(page, 1200, 1500)
    assert near(answer(page)["points"], [[1200, 450], [1200, 1500], [1200, 2330], [300, 2330]])
    assert answer(page)["depth"] == [20, 20, 30]


def test_slanting_legs_are_drawn_once_allowed(show: Show) -> None:
    page = show()
    button(page, "Allow slanting").click()
    click(page, 500, 500)
    click(page, 1500, 1500)
    assert near(answer(page)["points"], [[500, 500], [1500, 1500]])


def test_a_double_click_places_one_point_and_picks_up_none(show: Show) -> None:
    page = show()
    page.mouse.dblclick(*spot(page, 800, 800))
    assert len(answer(page)["points"]) == 1
    assert page.locator(".zl-held").count() == 0


def test_in_adjust_a_click_beside_the_route_adds_nothing(show: Show) -> None:
    page = show(answer=DROP)
    button(page, "Adjust").click()
    click(page, 1800, 900)
    assert commits(page) == 0


def test_undo_and_redo_send_what_they_bring_back(show: Show) -> None:
    page = show(answer=DROP)
    button(page, "Delete point").click()
    button(page, "Undo").click()
    assert len(answer(page)["points"]) == 3
    button(page, "Redo").click()
    assert len(answer(page)["points"]) == 2
    assert commits(page) == 3


def test_on_the_rear_the_picture_is_mirrored_and_places_stay_in_front_view(show: Show) -> None:
    page = show()
    front = spot(page, 800, 450)[0]
    button(page, "Rear").click()
    assert spot(page, 800, 450)[0] > front
    click(page, 806, 456)
    assert answer(page)["points"] == [[800, 450]]


def test_control_and_wheel_zoom_about_the_mouse(show: Show) -> None:
    page = show()
    before = spot(page, 1200, 450)
    page.mouse.move(*before)
    page.keyboard.down("Control")
    page.mouse.wheel(0, -400)
    page.keyboard.up("Control")
    page.wait_for_function("document.querySelector('.zl-overlay').viewBox.baseVal.width < 2500")
    assert all(abs(a - b) < 2 for a, b in zip(before, spot(page, 1200, 450), strict=True))


def test_the_wheel_alone_is_left_to_the_page(show: Show) -> None:
    page = show()
    page.mouse.move(*spot(page, 1200, 450))
    page.mouse.wheel(0, 200)
    page.wait_for_function("window.scrollY > 0")
    assert page.evaluate("document.querySelector('.zl-overlay').viewBox.baseVal.width") == 4000


def test_the_view_moves_by_buttons_and_by_dragging(show: Show) -> None:
    page = show()
    button(page, "Zoom in").click()
    start = page.evaluate("document.querySelector('.zl-overlay').viewBox.baseVal.x")
    button(page, "View right").click()
    further = page.evaluate("document.querySelector('.zl-overlay').viewBox.baseVal.x")
    assert further > start
    button(page, "Move the view").click()
    drag(page, (1800, 1200), (2200, 1200))
    assert page.evaluate("document.querySelector('.zl-overlay').viewBox.baseVal.x") < further
    button(page, "Show the whole wall").click()
    assert page.evaluate("document.querySelector('.zl-overlay').viewBox.baseVal.width") == 4000
    assert commits(page) == 0


def test_taps_place_points(show: Show) -> None:
    page = show(width=390, touch=True)
    for place in ((1203, 450), (1203, 2330), (300, 2330)):
        page.touchscreen.tap(*spot(page, *place))
    assert near(answer(page)["points"], [[1203, 450], [1203, 2330], [300, 2330]], 30)
    assert commits(page) == 3


def test_a_finger_drags_a_point(show: Show) -> None:
    page = show(width=390, touch=True, answer=DROP)
    fingers = Fingers(page)
    fingers.send("touchStart", spot(page, 300, 2330))
    for x in (400, 500, 600, 700):
        fingers.send("touchMove", spot(page, x, 2330))
    fingers.send("touchEnd")
    assert near(answer(page)["points"], [[1200, 450], [1200, 2330], [700, 2330]], 30)
    assert commits(page) == 1


def test_two_fingers_zoom_and_leave_the_route_alone(show: Show) -> None:
    page = show(width=390, touch=True, answer=DROP)
    fingers = Fingers(page)
    x, y = spot(page, 1800, 1200)
    fingers.send("touchStart", (x - 20, y), (x + 20, y))
    for wide in (30, 45, 60):
        fingers.send("touchMove", (x - wide, y), (x + wide, y))
    fingers.send("touchEnd")
    page.wait_for_function("document.querySelector('.zl-overlay').viewBox.baseVal.width < 1500")
    assert all(abs(a - b) < 3 for a, b in zip((x, y), spot(page, 1800, 1200), strict=True))
    assert commits(page) == 0


def test_a_stroke_is_on_the_screen_within_one_frame(show: Show) -> None:
    page = show(answer=DROP)
    x, y = spot(page, 300, 900)
    took = page.evaluate(MOVES, [x, y])
    assert took < 16.7
