"""How the browser tests work the pad: places on the wall in mm, made into places on the screen."""

from collections.abc import Sequence
from typing import Any

from playwright.sync_api import CDPSession, Locator, Page

DROP = (
    '{"points":[[1200,450],[1200,2330],[300,2330]],"depth":[20,30],"protection":["none","none"],"rcd":null}'
)
Places = Sequence[Sequence[float]]
ON_SCREEN = """([x, y]) => {
  const svg = document.querySelector(".zl-overlay");
  const wall = model.get("task").wall;
  const high = Math.max(...wall.top.map((p) => p[1]));
  const rear = document.querySelector("button[aria-label=Rear][aria-pressed=true]");
  const seen = rear ? wall.length - x : x;
  const p = new DOMPoint(seen, high - y).matrixTransform(svg.getScreenCTM());
  return [p.x, p.y];
}"""


def spot(page: Page, x: float, y: float) -> tuple[float, float]:
    """Return where a place of the wall (mm, front view) is on the screen."""
    across, down = page.evaluate(ON_SCREEN, [x, y])
    return across, down


def click(page: Page, x: float, y: float) -> None:
    page.mouse.click(*spot(page, x, y))


def drag(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    page.mouse.move(*spot(page, *start))
    page.mouse.down()
    page.mouse.move(*spot(page, (start[0] + end[0]) / 2, (start[1] + end[1]) / 2), steps=3)
    page.mouse.move(*spot(page, *end), steps=3)
    page.mouse.up()


def answer(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate("model.get('answer')")
    return found


def commits(page: Page) -> int:
    """Return how often an answer was sent."""
    number: int = page.evaluate("model.sent.filter((s) => 'answer' in s).length")
    return number


def button(page: Page, name: str) -> Locator:
    return page.get_by_role("button", name=name, exact=True)


def surface(page: Page) -> Locator:
    return page.get_by_role("application", name="Drawing of the wall")


def near(found: Places, wanted: Places, within: float = 15) -> bool:
    """Tell whether two lists of points agree to some mm: a screen pixel is several mm wide."""
    pairs = zip(found, wanted, strict=False)
    close = all(abs(a - b) <= within for p, q in pairs for a, b in zip(p, q, strict=True))
    return len(found) == len(wanted) and close


class Fingers:
    """Touches of a real touch screen, several at once."""

    def __init__(self, page: Page) -> None:
        self.session: CDPSession = page.context.new_cdp_session(page)

    def send(self, kind: str, *places: tuple[float, float]) -> None:
        points = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(places)]
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
