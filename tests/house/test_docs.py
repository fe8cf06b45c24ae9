"""The documentation site: its sources are current, name what exists, and build without a warning."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from types import ModuleType
from urllib.parse import unquote, urlsplit

import pytest

from tests.house import docs_api, docs_commands, docs_readings
from tests.house.files import ROOT
from tests.house.test_plain_words import BLAME, long_ones
from zonelib.rules.pack import load_pack

PROSE = [
    "index", "first-apprentice", "first-tutor", "first-centre", "how-to-tutor", "files", "scope",
    "college-computers", "faults", "readings", "commands", "licences",
]  # fmt: skip
FETCHED = {"script": "src", "img": "src", "link": "href", "iframe": "src", "source": "src", "video": "src"}
IN_STYLE = re.compile(r"(?:url\(\s*[\"']?|@import\s+[\"'])(https?:)?//")


@pytest.mark.parametrize("module", [docs_api, docs_commands, docs_readings])
def test_a_page_that_is_made_is_as_it_would_be_made_today(module: ModuleType) -> None:
    assert module.PAGE.read_text(encoding="utf-8") == module.page()


@pytest.mark.parametrize("name", PROSE)
def test_pages_are_in_plain_words(name: str) -> None:
    text = (ROOT / "docs" / f"{name}.md").read_text(encoding="utf-8")
    assert text.startswith("# ")
    assert long_ones(text) == []
    assert BLAME.findall(re.sub(r"```.*?```", "", text, flags=re.DOTALL)) == []


def test_every_fault_names_a_test_that_exists() -> None:
    text = (ROOT / "docs" / "faults.md").read_text(encoding="utf-8")
    rows = [line for line in text.splitlines() if line.startswith("| ") and "what was tried" not in line]
    named = re.findall(r"`(tests/[\w/]+\.py)::(test_\w+)`", text)
    assert len(named) == len(rows) > 30
    assert [one for one in named if one[1] not in functions(ROOT / one[0])] == []
    assert {row.split("|")[3].strip() for row in rows} == {"nothing", "nothing more than the damage took"}


def functions(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}


@pytest.mark.parametrize("words", ["Kill", "Full disk", "Two writers", "clock jumps", "Damaged", "network"])
def test_every_sort_of_fault_has_a_part(words: str) -> None:
    heads = re.findall(r"^## (.+)$", (ROOT / "docs" / "faults.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert [head for head in heads if words in head]


class Page(HTMLParser):
    """What a page of the site has: places to link to, links, and what a browser fetches by itself."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.links: list[str] = []
        self.fetched: list[str] = []
        self.feed(path.read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        had = {name: value or "" for name, value in attrs}
        self.ids |= {had[name] for name in ("id", "name") if name in had}
        if tag == "a" and "href" in had:
            self.links.append(had["href"])
        if tag in FETCHED and FETCHED[tag] in had:
            self.fetched.append(had[FETCHED[tag]])


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("docs") / "site"
    words = [
        sys.executable,
        "-W",
        "ignore",
        "-m",
        "mkdocs",
        "build",
        "--strict",
        "--quiet",
        "-d",
        str(folder),
    ]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[Path, Page]:
    return {path.resolve(): Page(path) for path in site.rglob("*.html") if path.name != "404.html"}


def led_nowhere(path: Path, page: Page, pages: dict[Path, Page]) -> Iterator[str]:
    for link in page.links:
        parts = urlsplit(link)
        if parts.scheme or parts.netloc:
            continue
        target = (path.parent / unquote(parts.path)).resolve() if parts.path else path
        there = pages.get(target)
        if not target.exists() or (parts.fragment and there and unquote(parts.fragment) not in there.ids):
            yield f"{path.name}: {link}"


def test_every_link_and_anchor_of_the_site_leads_somewhere(pages: dict[Path, Page]) -> None:
    assert len(pages) > 25
    assert sum(len(page.links) for page in pages.values()) > 1000
    assert [bad for path, page in pages.items() for bad in led_nowhere(path, page, pages)] == []


def test_no_page_fetches_anything_from_another_host(site: Path, pages: dict[Path, Page]) -> None:
    fetched = {link for page in pages.values() for link in page.fetched}
    assert [link for link in fetched if link.endswith(".css")]
    assert [link for link in fetched if urlsplit(link).netloc] == []
    styles = [path.read_text(encoding="utf-8") for path in [*site.rglob("*.css"), *pages]]
    assert [found[0] for text in styles for found in IN_STYLE.finditer(text)] == []


def test_the_reference_names_every_public_name(site: Path) -> None:
    page = Page(site / "api.html")
    for module, names in docs_api.MODULES.items():
        assert {f"{module}.{name}" for name in names} <= page.ids


def test_the_safety_words_stand_on_every_page(pages: dict[Path, Page]) -> None:
    aid = load_pack("uk").safety.aid
    assert [path.name for path in pages if aid not in path.read_text(encoding="utf-8")] == []


def test_a_link_to_nowhere_is_known_when_seen(tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    path.write_text('<a href="#b">b</a><a href="c.html">c</a><a id="d" href="#d">d</a>', encoding="utf-8")
    page = Page(path)
    assert list(led_nowhere(path, page, {path: page})) == ["a.html: #b", "a.html: c.html"]
