"""Pieces of a page: tables with headings that a screen reader follows, and text that stays text."""

from collections.abc import Iterable, Iterator, Sequence
from html import escape

from zonelib.desk.plain import plain

__all__ = ["Cell", "figure", "listing", "para", "percent", "safe", "section", "signed", "table"]

NOT_DEFINED = "not defined"

Cell = str | tuple[str, str]
"""A text, or a text with the class of its cell."""


def safe(text: str) -> str:
    """Return a text from outside as it stands on a page."""
    return escape(plain(text))


def percent(share: float) -> str:
    """Return a share as a reader writes it, in one piece.

    >>> print(percent(0.456).replace("\u00a0", "~"))
    46~%
    """
    return f"{100 * share:.0f}\u00a0%"


def signed(value: float | None) -> str:
    """Return a coefficient with two decimals, or that there is none.

    >>> signed(-0.004), signed(None)
    ('0.00', 'not defined')
    """
    return NOT_DEFINED if value is None else f"{round(value, 2) + 0.0:.2f}"


def para(text: str, css: str = "") -> str:
    """Return a paragraph of a text that is not HTML yet."""
    return f"<p{_css(css)}>{escape(text)}</p>"


def listing(lines: Iterable[str]) -> str:
    """Return a list of texts that are not HTML yet."""
    return f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>"


def section(title: str, parts: Iterable[str], *, name: str) -> str:
    """Return a part of the page under its heading."""
    body = "\n".join(parts)
    return f'<section aria-labelledby="{name}"><h2 id="{name}">{escape(title)}</h2>\n{body}\n</section>'


def figure(drawing: str, caption: str) -> str:
    """Return a drawing with its caption; it scrolls by itself where a page is too narrow to read it."""
    told = escape(caption)
    wide = f'<div class="wide" tabindex="0" role="region" aria-label="{told}">{drawing}</div>'
    return f"<figure>{wide}<figcaption>{told}</figcaption></figure>"


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[Cell]], *, css: str = "") -> str:
    """Return a table whose first column names its rows; it scrolls by itself where a page is narrow."""
    return "\n".join(_table(caption, heads, rows, css))


def _table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[Cell]], css: str) -> Iterator[str]:
    yield f'<div class="wide" tabindex="0" role="region" aria-label="{escape(caption)}"><table{_css(css)}>'
    yield f"<caption>{escape(caption)}</caption><thead><tr>"
    yield from (f'<th scope="col">{escape(one)}</th>' if one else "<td></td>" for one in heads)
    yield "</tr></thead><tbody>"
    for first, *rest in rows:
        yield f'<tr><th scope="row">{safe(_text(first))}</th>{"".join(map(_cell, rest))}</tr>'
    yield "</tbody></table></div>"


def _text(cell: Cell) -> str:
    return cell if isinstance(cell, str) else cell[0]


def _cell(cell: Cell) -> str:
    css = "" if isinstance(cell, str) else cell[1]
    return f"<td{_css(css)}>{safe(_text(cell))}</td>"


def _css(name: str) -> str:
    return f' class="{name}"' if name else ""
