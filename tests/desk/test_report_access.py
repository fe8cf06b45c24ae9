"""Report and feedback pages in a browser: axe-core finds nothing, none is too wide, print is whole."""

import os
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from tests.desk.small_class import hand_in_class
from tests.house.files import ROOT
from zonelib.desk.overriding import Asked, change_mark
from zonelib.desk.report.make import make_report
from zonelib.desk.run import mark_folder
from zonelib.desk.work import page_path

pytestmark = pytest.mark.browser
AXE = Path(os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js"))
NAMES = ("report.html", page_path(Path(), "C-001").as_posix())


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    home = tmp_path_factory.mktemp("class")
    mark_folder(hand_in_class(home), home / "marked")
    change_mark(home / "marked", Asked("C-001", "bedroom-drop"), score=6, reason="Seen at the bench.")
    make_report(home / "marked")
    return home / "marked"


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Return a page that reaches nothing but files, so that one that asks for more is caught."""
    opened = browser.new_page()
    asked: list[str] = []
    opened.on("request", lambda one: asked.append(one.url))
    yield opened
    opened.close()
    assert [one for one in asked if not one.startswith("file://")] == []


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize("name", NAMES)
def test_axe_finds_nothing_and_the_page_is_no_wider_than_the_window(
    page: Page, marked: Path, name: str, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    page.goto((marked / name).as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.locator("script").count() == 0
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("async () => (await axe.run()).violations")
    assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == []


def test_the_report_prints_with_every_part_on_its_pages(page: Page, marked: Path) -> None:
    page.goto((marked / "report.html").as_uri())
    pages = PdfReader(BytesIO(page.pdf(format="A4"))).pages
    assert 3 <= len(pages) <= 6
    text = " ".join(" ".join(one.extract_text() for one in pages).split())  # a narrow cell breaks its lines
    for words in (
        "Class report",
        "Figures of each exercise",
        "522.6.202",
        "Seen at the bench.",
        "cables in screed",
    ):
        assert words in text


def test_a_symbol_stands_beside_each_colour(page: Page, marked: Path) -> None:
    page.goto((marked / "report.html").as_uri())
    for css, symbol in (("full", "●"), ("half", "◐"), ("little", "○")):
        cells = page.locator(f"table.heat td.{css}").all_inner_texts()
        assert all(text.startswith(symbol) for text in cells)
    assert page.locator("table.heat td.little").count() > 0
