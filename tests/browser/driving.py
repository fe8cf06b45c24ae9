"""How a person works in a notebook: run a cell, click on the wall, press a button, save."""

from playwright.sync_api import Locator, Page, expect

from tests.pad.driving import Fingers

PLACE = """([x, y]) => {
  const overlay = document.querySelector(".zl-overlay");
  const high = Number(document.querySelector(".zl-surface svg[data-height]").dataset.height);
  const at = new DOMPoint(x, high - y).matrixTransform(overlay.getScreenCTM());
  return [at.x, at.y];
}"""


def open_notebook(page: Page, address: str) -> None:
    page.goto(address)
    page.wait_for_selector(".jp-Notebook .jp-CodeCell")
    page.get_by_text("| Idle").wait_for()


def run_cell(page: Page, number: int = 0) -> None:
    """Run a cell as the sheet's own words say: click in it, then Shift and Enter."""
    page.locator(".jp-CodeCell .cm-content").nth(number).click()
    page.keyboard.press("Shift+Enter")


def open_sheet(page: Page) -> Locator:
    run_cell(page)
    page.wait_for_selector(".zl-sheet .zl-pad .zl-overlay")
    page.locator(".zl-surface").scroll_into_view_if_needed()
    return page.locator(".zl-sheet")


def click_wall(page: Page, *points: tuple[float, float]) -> None:
    """Click on places of the wall, as one clicks: move, press, release [mm]."""
    for point in points:
        page.locator(".zl-surface").scroll_into_view_if_needed()
        x, y = page.evaluate(PLACE, list(point))
        page.mouse.move(x - 4, y + 4)
        page.mouse.click(x, y)
        page.wait_for_timeout(450)  # a second click within this time is a double click


def drag_wall(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Drag from one place of the wall to another [mm]."""
    page.locator(".zl-surface").scroll_into_view_if_needed()
    page.mouse.move(*page.evaluate(PLACE, list(start)))
    page.mouse.down()
    page.mouse.move(*page.evaluate(PLACE, [(a + b) / 2 for a, b in zip(start, end, strict=True)]), steps=3)
    page.mouse.move(*page.evaluate(PLACE, list(end)), steps=3)
    page.mouse.up()


def tap_wall(page: Page, *points: tuple[float, float]) -> None:
    """Tap on places of the wall with a finger [mm]."""
    for point in points:
        page.locator(".zl-surface").scroll_into_view_if_needed()
        page.touchscreen.tap(*page.evaluate(PLACE, list(point)))
        page.wait_for_timeout(450)  # two taps within this time are a double one


def swipe_wall(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Move a finger over the wall from one place to another [mm]; nothing may scroll away under it."""
    page.locator(".zl-surface").scroll_into_view_if_needed()
    finger = Fingers(page)
    finger.send("touchStart", page.evaluate(PLACE, list(start)))
    for share in (0.3, 0.6, 1.0):
        at = [a + (b - a) * share for a, b in zip(start, end, strict=True)]
        finger.send("touchMove", page.evaluate(PLACE, at))
    finger.send("touchEnd")


def type_by_touch(page: Page, label: str, text: str) -> None:
    """Tap into a field, type over what it holds, and tap beside it."""
    page.get_by_label(label).tap()
    page.get_by_label(label).press("Control+a")
    page.keyboard.type(text)
    page.locator(".zl-pad .zl-title").tap()


def fill(page: Page, label: str, value: str) -> None:
    """Type into a field, and go on to the next."""
    page.get_by_label(label, exact=True).fill(value)
    page.get_by_label(label, exact=True).press("Tab")


def keys_on_drawing(page: Page, *keys: str) -> None:
    """Press keys on the drawing, come to from the first button of the pad as one does without a mouse."""
    page.get_by_role("button", name="Read aloud").focus()
    for _ in range(6):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.getAttribute('role')") == "application":
            break
    expect(page.locator(".zl-surface")).to_be_focused()
    for key in keys:
        page.keyboard.press(key)


def press(page: Page, words: str) -> None:
    page.locator(".zl-sheet .jupyter-button", has_text=words).first.click()


def saved_words(page: Page, part: str) -> None:
    page.locator(".zl-saved", has_text=part).wait_for()


def save_notebook(page: Page) -> None:
    page.keyboard.press("Control+s")
    page.locator(".jp-mod-dirty").wait_for(state="detached")


def from_menu(page: Page, menu: str, words: str) -> None:
    page.get_by_role("menuitem", name=menu, exact=True).click()
    page.locator(".lm-Menu-item", has_text=words).first.click()


def restart_kernel(page: Page) -> None:
    from_menu(page, "Kernel", "Restart Kernel…")
    page.locator(".jp-Dialog-footer button", has_text="Restart").click()
    page.get_by_text("| Idle").wait_for()
