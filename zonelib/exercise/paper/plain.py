"""A question's Markdown as the paragraphs of a sheet."""

import re
from collections.abc import Iterator

from zonelib.draw.paper import Words

__all__ = ["paragraphs"]

_ITEM = re.compile(r"\s*(?:[-*]|\d+\.)\s+")
_MARKS = re.compile(r"\*\*|__|`")


def paragraphs(markdown: str) -> Iterator[Words]:
    """Yield each paragraph and each item of a list; emphasis is left out."""
    for part in re.split(r"\n\s*\n", markdown.strip()):
        for item in _items(part.splitlines()):
            yield Words(_MARKS.sub("", item))


def _items(lines: list[str]) -> Iterator[str]:
    """Yield the lines of one paragraph joined, each item of a list for itself."""
    said = ""
    for line in lines:
        found = _ITEM.match(line)
        if found and said:
            yield said
            said = ""
        said = f"– {line[found.end() :].strip()}" if found else f"{said} {line.strip()}".strip()
    if said:
        yield said
