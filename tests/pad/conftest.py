"""A page that shows the pad without a notebook: a fake model, served from the test's own memory."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import quote, urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route

from zonelib.exercise import bank_path, freeze, read_exercise
from zonelib.sheet.code import pad_code, pad_style
from zonelib.sheet.task import pad_task

HERE = Path(__file__).resolve().parent
ADDRESS = "http://localhost/"
FILES = {
    "page.html": "text/html",
    "tasks.js": "text/javascript",
    "pad.js": "text/javascript",
    "pad.css": "text/css",
}

JOINED = {"pad.js": pad_code, "pad.css": pad_style}


def serve(route: Route) -> None:
    name = urlsplit(route.request.url).path.lstrip("/")
    if name.startswith("bank/"):
        task = pad_task(freeze(read_exercise(bank_path(name.removeprefix("bank/")))))
        route.fulfill(body=json.dumps(task), content_type="application/json")
        return
    if name not in FILES:
        route.fulfill(status=404)
        return
    body = JOINED[name]() if name in JOINED else (HERE / name).read_text(encoding="utf-8")
    route.fulfill(body=body, content_type=FILES[name])


@pytest.fixture
def show(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Return a function that opens the pad on a task of the page, or on an exercise of the bank.

    Script errors of the page fail the test.
    """
    troubles: list[str] = []
    pages: list[Page] = []

    def start(
        task: str = "corner", *, answer: str = "{}", width: int = 1280, touch: bool = False, bank: str = ""
    ) -> Page:
        context = browser.new_context(viewport={"width": width, "height": 900}, has_touch=touch)
        page = context.new_page()
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.route("**/*", serve)
        asked = f"bank={bank}" if bank else f"task={task}"
        page.goto(f"{ADDRESS}page.html?{asked}&answer={quote(answer)}")
        page.wait_for_selector(".zl-pad")
        pages.append(page)
        return page

    yield start
    for page in pages:
        page.context.close()
    assert troubles == []
