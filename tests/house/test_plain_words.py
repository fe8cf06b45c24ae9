"""What a trainee or tutor reads is in plain English: short sentences, no blame, no praise."""

import json
import re
import tomllib
from collections.abc import Iterator

import pytest

from tests.house.files import ROOT, texts

LONGEST = 25
BLAME = re.compile(
    r"\b(wrong|invalid|illegal|please|oops|sorry|well done|stupid|careless|obviously|simply)\b", re.IGNORECASE
)
NOT_PROSE = re.compile(r"```.*?```|<!--.*?-->|^\|[^\n]*$|^#[^\n]*$", re.DOTALL | re.MULTILINE)
ONE_WORD = re.compile(r"`[^`\n]*`|<[^>\n]+>|!\[[^\]]*\]\([^)]*\)|\$[^$\n]*\$")
BREAK = re.compile(r"(?<=[.!?])[\"')*]*\s+|\n\s*>?\s*\n|\n\s*(?:[-*]|\d+\.)\s")


def sentences(markdown: str) -> list[str]:
    """Split prose, its code, tables, pictures and headings left out."""
    prose = ONE_WORD.sub(" X ", NOT_PROSE.sub("\n\n", markdown))
    prose = re.sub(r"\]\([^)]*\)", "]", prose)
    return [" ".join(part.split()) for part in BREAK.split(prose) if part.strip()]


def long_ones(markdown: str) -> list[str]:
    return [s for s in sentences(markdown) if len(re.findall(r"\w[\w’'./,-]*", s)) > LONGEST]


def read_by_people() -> Iterator[tuple[str, str]]:
    yield "README.md", (ROOT / "README.md").read_text(encoding="utf-8")
    for path in texts(".ipynb"):
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        prose = ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown"]
        yield str(path.relative_to(ROOT)), "\n\n".join(prose)
    for path in texts(".toml"):
        if path.relative_to(ROOT).parts[0] in {"zonelib", "lessons", "solutions", "exercises"}:
            data = tomllib.loads(path.read_text(encoding="utf-8"))
            yield str(path.relative_to(ROOT)), "\n\n".join(strings(data))


def strings(data: object) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from strings(value)
    elif isinstance(data, list):
        for value in data:
            yield from strings(value)


@pytest.mark.parametrize(("name", "text"), [pytest.param(*item, id=item[0]) for item in read_by_people()])
def test_no_sentence_is_long_and_no_word_blames(name: str, text: str) -> None:
    assert text.strip(), name
    assert long_ones(text) == []
    assert BLAME.findall(text) == []


def test_a_long_sentence_is_known_when_seen() -> None:
    assert long_ones("word " * 26 + ".")
    assert not long_ones("word " * 25 + ".\n\n" + "word " * 25)


def test_code_and_tables_are_not_prose() -> None:
    assert sentences("Run `a b c` now.\n\n```sh\nx y\n```\n\n| a | b |\n") == ["Run X now."]
