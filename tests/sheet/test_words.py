"""What the sheet says is plain, and every entry is said."""

import re
from pathlib import Path

import pytest

from zonelib.sheet.words import entries, say

SOURCES = Path(__file__).parents[2] / "zonelib" / "sheet"
BLANKS = dict.fromkeys(re.findall(r"{(\w+)}", " ".join(entries().values())), "one")
FORBIDDEN = re.compile(r"\b(wrong|invalid|illegal|please|oops|sorry|error|fail\w*)\b", re.IGNORECASE)


@pytest.mark.parametrize("entry", entries())
def test_each_entry_is_short_and_blames_nobody(entry: str) -> None:
    words = say(entry, **BLANKS)
    assert "{" not in words
    assert all(len(sentence.split()) <= 25 for sentence in re.split(r"(?<=[.:])\s", words))
    assert not FORBIDDEN.search(words)


@pytest.mark.parametrize("entry", entries())
def test_each_entry_is_said_somewhere(entry: str) -> None:
    said = f'say("{entry}"', f"say('{entry}'", f'intro = "{entry}"', f'intro: str = "{entry}"'
    texts = [path.read_text(encoding="utf-8") for path in SOURCES.rglob("*.py")]
    assert any(words in text for text in texts for words in said)
