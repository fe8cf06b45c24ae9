"""What candidates and invigilators do on their pages, by a browser."""

import os
from pathlib import Path

from playwright.sync_api import Page, expect

__all__ = ["at_desk", "draw", "enter", "press", "saved", "violations"]

ROOT = Path(__file__).resolve().parents[2]
AXE = Path(os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js"))


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


def violations(page: Page) -> list[str]:
    """Return what axe finds, each with where."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate(
        "async () => (await axe.run()).violations"
        ".map((v) => [v.id, ...v.nodes.map((n) => n.html)].join(' | '))"
    )
    return list(found)
