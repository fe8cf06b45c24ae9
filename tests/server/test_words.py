"""What pages and server say: plain, short, without blame; each entry of the table said somewhere."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import zonelib.desk.server as package
from tests.house.test_plain_words import BLAME, long_ones
from zonelib.desk.server.refusal import entries

HOME = Path(package.__file__).parent
QUOTED = re.compile(r'"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\]|\\.)*)`|>([^<>{}]+)<')


def said(path: Path) -> Iterator[str]:
    """Yield the texts of a script or page that read like a sentence."""
    for match in QUOTED.finditer(path.read_text(encoding="utf-8")):
        text = re.sub(r"\$\{[^}]*\}", "X", next(filter(None, match.groups()), ""))
        if " " in text and re.search(r"[a-z]{3,} [a-z]{2,}", text):
            yield text


@pytest.mark.parametrize(
    "path", sorted([*HOME.glob("static/*.js"), *HOME.glob("static/*.html")]), ids=lambda p: p.name
)
def test_pages_speak_plainly(path: Path) -> None:
    words = "\n\n".join(said(path))
    assert long_ones(words) == []
    assert BLAME.findall(words) == []


def test_the_texts_of_a_page_are_found() -> None:
    assert "Type the code on your slip first." in list(said(HOME / "static" / "index.js"))


@pytest.mark.parametrize("entry", sorted(entries()))
def test_each_entry_is_said_somewhere(entry: str) -> None:
    code = "\n".join(path.read_text(encoding="utf-8") for path in HOME.rglob("*.py"))
    assert f'"{entry}"' in code
