"""Turns of the kinds that are answered in fields and lists: choices, numbers, given cables, inspections."""

from playwright.sync_api import Page

from tests.browser.driving import click_wall, fill, keys_on_drawing, tap_wall, type_by_touch
from tests.browser.turns import Turn, Way, all_near, holding

__all__ = ["FORMED"]

# --- choices --------------------------------------------------------------------------------------


def option(page: Page, name: str) -> None:
    page.locator(".zl-option", has_text=f"{name}:").click()


def choose_by_mouse(page: Page) -> None:
    option(page, "F2")
    option(page, "F4")


def choose_by_touch(page: Page) -> None:
    page.locator(".zl-option", has_text="F2:").tap()
    page.locator(".zl-option", has_text="F4:").tap()


def choose_by_keys(page: Page) -> None:
    page.get_by_role("checkbox", name="F2:").focus()
    page.keyboard.press("Space")


CHOOSE = Turn(
    "landing-which-screws", "F4 is not right", 0,
    mouse=Way(choose_by_mouse, holding(chosen=["F2", "F4"])),
    touch=Way(choose_by_touch, holding(chosen=["F2", "F4"])),
    keys=Way(choose_by_keys, holding(chosen=["F2"])),
)  # fmt: skip

# --- a number -------------------------------------------------------------------------------------


def number_by_mouse(page: Page) -> None:
    page.get_by_label("Your number in mm").click()
    page.keyboard.type("100,0")
    page.keyboard.press("Tab")


def number_by_touch(page: Page) -> None:
    type_by_touch(page, "Your number in mm", "105,5")


def number_by_keys(page: Page) -> None:
    page.get_by_label("Your number in mm").focus()
    page.keyboard.type("105")
    page.keyboard.press("Enter")


NUMBER = Turn(
    "bedroom-how-far-out", "How to come to it", 0,
    mouse=Way(number_by_mouse, holding(value="100,0")),
    touch=Way(number_by_touch, holding(value="105,5")),
    keys=Way(number_by_keys, holding(value="105")),
)  # fmt: skip

# --- a given cable --------------------------------------------------------------------------------


def protect_by_mouse(page: Page) -> None:
    page.get_by_label("Covering of leg 1").select_option("plastic-conduit")
    page.get_by_label("Rating").select_option("30")
    page.get_by_label("Where it sits").select_option("outlet")


def protect_by_touch(page: Page) -> None:
    type_by_touch(page, "Depth of leg 2 in mm", "30")
    page.get_by_label("Covering of leg 1").select_option("steel-capping")


def protect_by_keys(page: Page) -> None:
    page.get_by_label("Depth of leg 1 in mm").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("25")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")


PROTECT = Turn(
    "store-given-run", "Outside the zones.", 1,
    mouse=Way(protect_by_mouse, holding(rcd={"ma": 30, "at": "outlet", "delayed": False})),
    touch=Way(protect_by_touch, holding(depth=[15, 30], protection=["steel-capping", "none"])),
    keys=Way(protect_by_keys, holding(depth=[25, 15], protection=["plastic-conduit", "none"])),
)  # fmt: skip

# --- an inspection --------------------------------------------------------------------------------

SAID = {"clause": None, "remedy": None, "why": None}


def inspect_by_mouse(page: Page) -> None:
    click_wall(page, (800, 1500), (800, 900))
    page.get_by_role("button", name="Whole leg").click()
    click_wall(page, (1600, 250))
    page.get_by_role("group", name="M2:").get_by_label("Remedy").select_option("plastic")
    page.get_by_label("Cable R1").select_option("yes")


def inspect_by_touch(page: Page) -> None:
    tap_wall(page, (800, 1500), (800, 900))
    page.get_by_label("Cable R1").select_option("yes")


def inspect_by_keys(page: Page) -> None:
    keys_on_drawing(page, "PageDown", "e", "Enter", "e", "e", "e", "Enter")


def inspect_by_numbers(page: Page) -> None:
    page.get_by_label("Cable", exact=True).select_option("R2")
    fill(page, "New mark, from, in mm along its cable", "440")
    fill(page, "New mark, to, in mm along its cable", "1560")
    page.get_by_role("button", name="Mark this stretch").press("Enter")


INSPECT = Turn(
    "dining-inspection", "Marked, though it passes", 3,
    mouse=Way(inspect_by_mouse, holding(passes={"R1": True})),
    touch=Way(
        inspect_by_touch,
        lambda one: one["passes"] == {"R1": True}
        and all_near([one["stretches"][0]["from"], one["stretches"][0]["to"]], [900, 1500]),
    ),
    keys=Way(inspect_by_keys, holding(stretches=[{"route": "R2", "from": 400, "to": 1600, **SAID}])),
    numbers=Way(inspect_by_numbers, holding(stretches=[{"route": "R2", "from": 440, "to": 1560, **SAID}])),
)  # fmt: skip

FORMED = (CHOOSE, NUMBER, PROTECT, INSPECT)
