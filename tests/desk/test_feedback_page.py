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
from zonelib.desk.run import mark_folder
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
    text = " ".join(printed(page, tmp_path))
    assert "late: 20% of 10 is taken off. You get 8." in text
    assert "Isolate, lock off, and prove dead" in text
    assert "Teaching aid." in text


MOST_PAGES = 10
"""Of a feedback page with ten exercises: a tutor prints it for a whole class."""

PAPER = 703
"""Width of an A4 page between its margins [CSS px]."""

LEAST_TEXT, LEAST_IN_PICTURE, LEAST_IN_ROW = 10.0, 5.9, 5.2
"""Sizes on paper of what is written, and of most words in a picture, or in that of a room's long row [pt]."""

SIZES = """() => {
  const pt = (node) => parseFloat(getComputedStyle(node).fontSize) * 0.75;
  const seen = (node) => node.getClientRects().length > 0;
  const em = (svg) => svg.getAttribute("font-size") / svg.viewBox.baseVal.width * svg.clientWidth * 0.75;
  return [
    [...document.querySelectorAll("main :is(h1, h2, h4, p, li, td, th)")].filter(seen).map(pt),
    [...document.querySelectorAll("div:not(.zl-long) > svg.zl-picture")].map(em),
    [...document.querySelectorAll(".zl-long > svg.zl-picture")].map(em),
    [...document.querySelectorAll("svg.zl-picture")].map((one) => getComputedStyle(one).breakInside),
  ];
}"""


def printed(page: Page, folder: Path) -> list[str]:
    """Print a page and return the text of each sheet; a font may join letters."""
    page.pdf(path=folder / "page.pdf", prefer_css_page_size=True)
    sheets = [one.extract_text() for one in PdfReader(folder / "page.pdf").pages]
    return [normalize("NFKC", " ".join(text.split())) for text in sheets]


@pytest.fixture(scope="module")
def longest(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the longest feedback page of the demo class."""
    home = demo_class(tmp_path_factory.mktemp("whole")).home
    mark_folder(home, home / "marked")
    return max((home / "marked" / "feedback").iterdir(), key=lambda one: one.stat().st_size)


@pytest.fixture
def sheets(browser: Browser, longest: Path, tmp_path: Path) -> Iterator[tuple[Page, list[str]]]:
    opened = browser.new_page(viewport={"width": PAPER, "height": 1000})
    opened.goto(longest.as_uri())
    yield opened, printed(opened, tmp_path)
    opened.close()


def test_ten_exercises_are_printed_on_ten_sheets_at_most(sheets: tuple[Page, list[str]]) -> None:
    page, texts = sheets
    titles = page.locator("table.marks").first.locator("a").all_inner_texts()
    assert len(titles) == 10
    assert len(texts) <= MOST_PAGES
    assert all(title in texts[0] for title in [*titles, "In all", "Before you drill into a real wall"])
    assert all(f"page {n} of {len(texts)}" in text for n, text in enumerate(texts, start=1))


def test_on_paper_no_heading_is_parted_from_its_question_and_picture(sheets: tuple[Page, list[str]]) -> None:
    page, texts = sheets
    for one in page.locator("div.exercise").all():
        heading, question = one.locator("h2").text_content(), one.locator("details p").first.text_content()
        drawn = one.locator("svg .text-title")
        assert heading
        assert question
        (sheet,) = [text for text in texts if heading in text]
        assert question.split(". ")[0] in sheet
        assert drawn.count() == 0 or str(drawn.first.text_content()) in sheet


def test_on_paper_words_and_pictures_are_large_enough_and_whole(sheets: tuple[Page, list[str]]) -> None:
    page, _ = sheets
    page.emulate_media(media="print")
    words, walls, rows, breaks = page.evaluate(SIZES)
    assert len(words) > 100
    assert min(words) >= LEAST_TEXT - 0.01
    assert len(walls) > 5
    assert min(walls) >= LEAST_IN_PICTURE
    assert min(rows) >= LEAST_IN_ROW
    assert set(breaks) == {"avoid"}
