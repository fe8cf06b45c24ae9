"""A feedback page as a trainee opens it: in a window, on a phone and on paper."""

import os
from collections.abc import Iterator
from pathlib import Path
from unicodedata import normalize

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from zonelib.desk.demo import demo_class
from zonelib.desk.groups import Group
from zonelib.desk.late import read_late_rule
from zonelib.desk.work import Settings, mark_group, page_path

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parents[2]
AXE = Path(os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js"))
RUN = """async () => (await axe.run()).violations
  .map((one) => [one.id, ...one.nodes.map((node) => node.html.slice(0, 200))].join(' | '))"""
UNFOLD = "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
LATE = "C-008"


@pytest.fixture(scope="module")
def feedback(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the page of a trainee who handed in late, with answers of every kind."""
    made = demo_class(tmp_path_factory.mktemp("demo"), trainees=8)
    rule = read_late_rule(made.due.isoformat(), "10% per day, at most 50%")
    settings = Settings(made.home, made.home / "marked", late=rule)
    mark_group(Group(LATE, folders=[made.submitted / LATE]), settings)
    return page_path(made.home / "marked", LATE)


@pytest.fixture(params=[1280, 390])
def page(request: pytest.FixtureRequest, browser: Browser, feedback: Path) -> Iterator[Page]:
    """Return the page in a window of either width; nothing may be asked of a network."""
    opened = browser.new_page(viewport={"width": request.param, "height": 900})
    asked: list[str] = []
    opened.on("request", lambda one: asked.append(one.url))
    opened.goto(feedback.as_uri())
    yield opened
    assert asked == [feedback.as_uri()]
    opened.close()


def test_axe_finds_nothing_with_all_unfolded(page: Page) -> None:
    page.evaluate(UNFOLD)
    page.evaluate(AXE.read_text(encoding="utf-8"))
    assert page.evaluate(RUN) == []


def test_the_page_is_no_wider_than_the_window_and_holds_no_script(page: Page) -> None:
    page.evaluate(UNFOLD)
    window = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert window[0] <= window[1]
    assert page.locator("script").count() == 0
    assert page.locator("h1").inner_text() == f"Feedback for {LATE}"
    assert page.locator("svg.zl-picture").count() > 5


def test_each_line_of_the_overview_leads_to_its_exercise(page: Page) -> None:
    links = page.locator("table.marks").first.locator("a")
    assert links.count() == 10
    links.nth(6).click()
    top = page.evaluate("document.querySelector(location.hash).getBoundingClientRect().top")
    assert -1 <= top < 900


def test_on_paper_all_is_unfolded_and_lateness_is_told(page: Page, tmp_path: Path) -> None:
    page.pdf(path=tmp_path / "page.pdf", format="A4")
    pages = [one.extract_text() for one in PdfReader(tmp_path / "page.pdf").pages]
    text = " ".join(normalize("NFKC", " ".join(pages)).split())  # a font may join letters
    assert "late: 20% of 10 is taken off. You get 8." in text
    assert "Isolate, lock off, and prove dead" in text
    assert "Teaching aid." in text
