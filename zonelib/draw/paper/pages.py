"""Sheets as the pages of a PDF: A4, upright, or lying where a drawing is long."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure

from zonelib.draw.figure import DPI, drawing
from zonelib.draw.metrics import LINE, wrapped
from zonelib.draw.paper.blocks import Plan, Sheet
from zonelib.draw.paper.fitting import fitted
from zonelib.draw.paper.pieces import MM_PER_PT, Paper, Piece, line, pieces, write

__all__ = ["BAR", "MARGIN", "save_sheets"]

A4 = (210.0, 297.0)
MARGIN = 10.0
HEAD, FOOT = 13.0, 27.0
BAR = 100.0
"""Length of the bar at the foot of each page [mm]."""

MM_PER_INCH = 25.4
SMALL = 6.6
FOOT_LINES = 6
CLEARER = 0.75
"""A page lies where its drawing can be so much larger."""


def save_sheets(sheets: Sequence[Sheet], path: Path, *, title: str) -> int:
    """Write sheets as one PDF, each from a new page; its text stays text.

    Parameters
    ----------
    sheets : sequence of Sheet
        In their order.
    path : Path
        The file to write.
    title : str
        Of the document.

    Returns
    -------
    int
        How many pages it has.
    """
    words: dict[str, Any] = {"Title": title, "CreationDate": None}
    count = 0
    with drawing(), PdfPages(path, metadata=words) as out:
        for sheet in sheets:
            for drawn in _pages(sheet):
                out.savefig(drawn, dpi=DPI)
                count += 1
    return count


def _size(sheet: Sheet) -> tuple[float, float]:
    """Return width and height of a sheet's pages [mm]."""
    plan = next((one for one in sheet.blocks if isinstance(one, Plan)), None)
    if plan is None:
        return A4
    upright, lying = (fitted(plan, *_column(*size)).scale for size in (A4, A4[::-1]))
    return A4[::-1] if lying <= CLEARER * upright else A4


def _column(width: float, height: float) -> tuple[float, float]:
    """Return width and height of what a page has room for [mm]."""
    return width - 2 * MARGIN, height - 2 * MARGIN - HEAD - FOOT


def _pages(sheet: Sheet) -> Iterator[Figure]:
    size = _size(sheet)
    laid = _laid_out(sheet, size)
    for n, page in enumerate(laid, start=1):
        paper = _blank(size)
        _draw_margins(paper, sheet, f"page {n} of {len(laid)}")
        top = size[1] - MARGIN - HEAD
        for piece in page:
            piece.draw(paper, MARGIN, top)
            top -= piece.height
        yield paper.drawn


def _laid_out(sheet: Sheet, size: tuple[float, float]) -> list[list[Piece]]:
    """Return the pieces of each page; one page is worth a drawing that is a step smaller."""
    width, height = _column(*size)
    tried = []
    for smaller in (0, 1):
        every = [
            piece
            for block in sheet.blocks
            for piece in pieces(block, width=width, height=height, smaller=smaller)
        ]
        tried.append(list(_laid(every, height)))
    return next((pages for pages in tried if len(pages) == 1), tried[0])


def _laid(every: list[Piece], height: float) -> Iterator[list[Piece]]:
    """Yield the pieces of each page; what stays with the next one moves over with it."""
    page: list[Piece] = []
    room = height
    for group in _groups(every):
        need = sum(piece.height for piece in group)
        if page and need > room:
            yield page
            page, room = [], height
        page += group
        room -= need
    if page:
        yield page


def _groups(every: list[Piece]) -> Iterator[list[Piece]]:
    group: list[Piece] = []
    for piece in every:
        group.append(piece)
        if not piece.keep:
            yield group
            group = []
    if group:
        yield group


def _blank(size: tuple[float, float]) -> Paper:
    width, height = size
    drawn = Figure(figsize=(width / MM_PER_INCH, height / MM_PER_INCH), dpi=DPI)
    FigureCanvasAgg(drawn)
    axes = drawn.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, width), ylim=(0, height))
    axes.set_axis_off()
    return Paper(drawn, axes, width, height)


def _draw_margins(paper: Paper, sheet: Sheet, number: str) -> None:
    left, right, top = MARGIN, paper.width - MARGIN, paper.height - MARGIN
    write(paper, sheet.title, left, top - 3, size=13, bold=True)
    holder = f"Candidate: {sheet.holder or '____________________'}"
    write(paper, holder, right, top - 9, size=9.5, anchor="right")
    write(paper, number, left, top - 9, size=SMALL)
    line(paper, (left, right), (top - 11.5, top - 11.5), wide=0.8)
    _draw_bar(paper, left, MARGIN + 20)
    size = SMALL * MM_PER_PT
    for n, words in enumerate(wrapped(sheet.foot, size, right - left)[:FOOT_LINES]):
        write(paper, words, left, MARGIN + 14.5 - (n + 0.5) * LINE * size, size=SMALL)


def _draw_bar(paper: Paper, left: float, y: float) -> None:
    line(paper, (left, left + BAR), (y, y), wide=1.0)
    for at in range(0, int(BAR) + 1, 10):
        line(paper, (left + at, left + at), (y, y + (3.0 if at % 50 == 0 else 1.8)), wide=0.6)
    words = f"This bar is {BAR:g} mm long. If it is not, print again at full size (100 %)."
    write(paper, words, left, y - 2.5, size=SMALL)
