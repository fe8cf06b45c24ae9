"""What candidates and invigilators do on their pages, by a browser."""

from playwright.sync_api import Page, expect

__all__ = ["at_desk", "draw", "enter", "press", "saved"]


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.click()


def enter(page: Page, code: str) -> Page:
    """Sign in on the first page."""
    page.get_by_label("Code on your slip").fill(code)
    page.keyboard.press("Enter")
    page.wait_for_url("**/sit")
    return page


def draw(page: Page, *, points: int = 2, key: str = "Shift+ArrowDown") -> None:
    """Draw by keys alone, from where the cross stands."""
    page.get_by_role("application").focus()
    for _ in range(points):
        page.keyboard.press(key)
        page.keyboard.press("Enter")


def saved(page: Page) -> None:
    """Wait until the page says that what was drawn is saved."""
    expect(page.locator(".zl-saved")).to_contain_text("Saved ")


def at_desk(page: Page, key: str) -> Page:
    """Sign in on the invigilator's page and open the sitting."""
    page.get_by_label("Invigilator's key").fill(key)
    page.keyboard.press("Enter")
    press(page, "Autumn")
    page.wait_for_selector(".seats")
    return page
