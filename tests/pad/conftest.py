"""A page that shows the pad without a notebook: a fake model, served from the test's own memory."""

import json
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from urllib.parse import quote, urlsplit

import pytest
from playwright.sync_api import Browser, Error, Page, Route

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


@cache
def task_of(exercise: str) -> str:
    return json.dumps(pad_task(freeze(read_exercise(bank_path(exercise)))))


def serve(route: Route) -> None:
    name = urlsplit(route.request.url).path.lstrip("/")
    if name.startswith("bank/"):
        route.fulfill(body=task_of(name.removeprefix("bank/")), content_type="application/json")
        return
    if name not in FILES:
        route.fulfill(status=404)
        return
    body = JOINED[name]() if name in JOINED else (HERE / name).read_text(encoding="utf-8")
    route.fulfill(body=body, content_type=FILES[name])


@pytest.fixture(scope="session")
def pages(browser: Browser) -> Iterator["Pages"]:
    """Return the pages of a run: a new one takes three times as long as what it is to show."""
    made = Pages(browser)
    yield made
    made.close()


class Pages:
    """Pages that are lent to tests and taken back as good as new."""

    def __init__(self, browser: Browser) -> None:
        self.contexts = {touch: browser.new_context(has_touch=touch) for touch in (False, True)}
        self.idle: dict[bool, list[Page]] = {False: [], True: []}

    def lend(self, *, touch: bool, width: int) -> Page:
        page = self.idle[touch].pop() if self.idle[touch] else self._new(touch)
        page.set_viewport_size({"width": width, "height": 900})
        return page

    def _new(self, touch: bool) -> Page:
        page = self.contexts[touch].new_page()
        page.route("**/*", serve)
        return page

    def take_back(self, page: Page, *, touch: bool) -> None:
        page.goto("about:blank")
        page.mouse.move(0, 0)
        page.emulate_media(forced_colors="null", reduced_motion="null")
        self.idle[touch].append(page)

    def close(self) -> None:
        for context in self.contexts.values():
            context.close()


@pytest.fixture
def show(pages: Pages) -> Iterator[Callable[..., Page]]:
    """Return a function that opens the pad on a task of the page, or on an exercise of the bank.

    Script errors of the page fail the test.
    """
    troubles: list[str] = []
    lent: list[tuple[Page, bool]] = []

    def hear(error: Error) -> None:
        troubles.append(str(error))

    def start(
        task: str = "corner", *, answer: str = "{}", width: int = 1280, touch: bool = False, bank: str = ""
    ) -> Page:
        page = pages.lend(touch=touch, width=width)
        lent.append((page, touch))
        page.on("pageerror", hear)
        asked = f"bank={bank}" if bank else f"task={task}"
        page.goto(f"{ADDRESS}page.html?{asked}&answer={quote(answer)}")
        page.wait_for_selector(".zl-pad")
        return page

    yield start
    for page, touch in lent:
        page.remove_listener("pageerror", hear)
        pages.take_back(page, touch=touch)
    assert troubles == []
