"""Blocks cut into pieces that never break across a page."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from zonelib.draw.figure import put_on
from zonelib.draw.look import INK
from zonelib.draw.metrics import LINE, wrapped
from zonelib.draw.paper.blocks import Block, Form, Plan, Words
from zonelib.draw.paper.fitting import Fitted, fitted
from zonelib.draw.paper.grid import grid_lines, grid_steps
from zonelib.rules.words import mm

__all__ = ["MM_PER_PT", "Paper", "Piece", "line", "pieces", "write"]

MM_PER_PT = 25.4 / 72
PX_PER_MM = 96 / 25.4
ROW = 6.0
"""Least height of a row to write in [mm]."""

MOST_TOGETHER = 16
"""Rows of a form that is not broken across pages."""

PAD = 1.2
SMALL = 8.0
GRID_INK, STRONG_INK = "#c6cdd3", "#8a949d"


@dataclass(frozen=True)
class Paper:
    """One page that is being drawn: millimetres from its lower left corner."""

    drawn: Figure
    axes: Any
    width: float
    height: float


@dataclass(frozen=True)
class Piece:
    """What keeps together: its height [mm], how it is drawn from its top, whether it stays with the next."""

    height: float
    draw: Callable[[Paper, float, float], None]
    keep: bool = False


def write(
    paper: Paper, words: str, x: float, y: float, *, size: float, bold: bool = False, anchor: str = "left"
) -> None:
    """Write one line with its middle at a height [mm]."""
    down = 0.36 * size * MM_PER_PT
    paper.axes.text(
        x, y - down, words, fontsize=size, color=INK, ha=anchor, va="baseline",
        fontweight="bold" if bold else "normal", parse_math=False,
    )  # fmt: skip


def line(paper: Paper, xs: tuple[float, float], ys: tuple[float, float], *, wide: float = 0.5) -> None:
    """Draw a straight line [mm]; its width is in points."""
    paper.axes.add_artist(Line2D(xs, ys, color=INK, linewidth=wide, solid_capstyle="butt"))


def pieces(block: Block, *, width: float, height: float, smaller: int = 0) -> Iterator[Piece]:
    """Yield the pieces of a block for a column of a width and a page of a height [mm].

    A drawing is at the largest scale that fits, or so many steps smaller.
    """
    match block:
        case Words():
            yield from _paragraph(block, width)
        case Form():
            yield from _form(block, width)
        case Plan():
            yield from _plan(block, fitted(block, width, height - 12, smaller=smaller))


def _paragraph(block: Words, width: float) -> Iterator[Piece]:
    size = block.size * MM_PER_PT
    lines = wrapped(block.text, size * (1.13 if block.bold else 1.0), width)
    for n, words in enumerate(lines, start=1):
        last = n == len(lines)
        yield Piece(LINE * size + (1.8 if last else 0.0), _line_of(words, block), keep=block.bold or not last)


def _line_of(words: str, block: Words) -> Callable[[Paper, float, float], None]:
    half = LINE * block.size * MM_PER_PT / 2
    return lambda paper, left, top: write(paper, words, left, top - half, size=block.size, bold=block.bold)


def _form(block: Form, width: float) -> Iterator[Piece]:
    shares = [width * share / sum(block.shares) for share in block.shares]
    rows = [_row(block.head, shares, bold=True), *(_row(row, shares, bold=False) for row in block.rows)]
    together = len(rows) <= MOST_TOGETHER
    yield from (replace(one, keep=together or n == 0) for n, one in enumerate(rows))
    yield Piece(3.0, lambda *_: None)


def _row(cells: tuple[str, ...], widths: list[float], *, bold: bool) -> Piece:
    size = SMALL * MM_PER_PT
    texts = [
        wrapped(cell, size * (1.13 if bold else 1.0), wide - 2 * PAD)
        for cell, wide in zip(cells, widths, strict=True)
    ]
    tall = max(ROW, max(map(len, texts)) * LINE * size + 2 * PAD)

    def draw(paper: Paper, left: float, top: float) -> None:
        for y in (top, top - tall):
            line(paper, (left, left + sum(widths)), (y, y))
        x = left
        for words, wide in zip(texts, widths, strict=True):
            line(paper, (x, x), (top, top - tall))
            for n, one in enumerate(words):
                write(paper, one, x + PAD, top - PAD - (n + 0.5) * LINE * size, size=SMALL, bold=bold)
            x += wide
        line(paper, (x, x), (top, top - tall))

    return Piece(tall, draw)


def _plan(block: Plan, seen: Fitted) -> Iterator[Piece]:
    step, strong = grid_steps(seen.scale)
    told = f"Scale 1 : {seen.scale} when printed at full size (100 %)."
    if block.grid:
        told += f" Grid: a fine line every {mm(step)} mm, a strong one every {mm(strong)} mm of wall."
    yield from (Piece(one.height, one.draw, keep=True) for one in _paragraph(Words(told, size=SMALL), 400.0))

    def draw(paper: Paper, left: float, top: float) -> None:
        box = (left, top - seen.height, seen.width, seen.height)
        _draw_scene(paper, seen, box, grid=block.grid)

    yield Piece(seen.height + 3.0, draw)


def _draw_scene(paper: Paper, seen: Fitted, box: tuple[float, float, float, float], *, grid: bool) -> None:
    left, bottom, wide, tall = box
    place = (left / paper.width, bottom / paper.height, wide / paper.width, tall / paper.height)
    axes = paper.drawn.add_axes(place)
    put_on(axes, seen.scene, mm_per_px=seen.scale / PX_PER_MM)
    ground = [n for n, shape in enumerate(seen.scene.shapes) if shape.css == "face"]
    if grid and ground:
        step, strong = grid_steps(seen.scale)
        _draw_grid(axes, seen, step, (GRID_INK, 0.3, ground[-1] + 0.4))
        _draw_grid(axes, seen, strong, (STRONG_INK, 0.5, ground[-1] + 0.6))


def _draw_grid(axes: Any, seen: Fitted, step: float, look: tuple[str, float, float]) -> None:
    colour, wide, layer = look
    for (x0, y0), (x1, y1) in grid_lines(seen.scene, step):
        axes.add_artist(Line2D((x0, x1), (y0, y1), color=colour, linewidth=wide, zorder=layer))
