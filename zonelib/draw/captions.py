"""What stands round a drawing: title, scale, legend, notes, edition and safety words."""

from collections.abc import Sequence
from dataclasses import dataclass

from zonelib.draw.board import Board
from zonelib.draw.metrics import LINE, text_width, wrapped
from zonelib.draw.shapes import Area, Box, Disc, Dots, Line, Text
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm

__all__ = ["Margin", "draw_head", "draw_foot", "legend_entries"]

KEY = 2.4
"""Width of a legend's sample [em]."""


@dataclass
class Margin:
    """Where the next line goes: the left and right edge [mm], and the height reached so far [mm]."""

    left: float
    right: float
    y: float

    @property
    def room(self) -> float:
        """Width of a line [mm]."""
        return self.right - self.left


def draw_head(board: Board, margin: Margin, title: str, subtitle: str) -> None:
    """Write title and subtitle upwards from the margin's height."""
    size = 0.95 * board.em
    for line in reversed(wrapped(subtitle, size, margin.room)):
        margin.y += LINE * size
        _line(board, margin, line, size, css="text-quiet", part="title", up=LINE * size / 2)
    bold = 1.3 * board.em
    for line in reversed(wrapped(title, bold * 1.13, margin.room)):
        margin.y += LINE * bold
        _line(board, margin, line, bold, css="text-title", part="title", up=LINE * bold / 2, bold=True)


def _line(
    board: Board, margin: Margin, words: str, size: float, *, css: str, part: str, up: float, bold: bool = False
) -> None:
    board.add(
        "margin",
        Text(css=css, part=part, text=words, x=margin.left, y=margin.y - up, size=size, anchor="start", bold=bold),
    )


def draw_foot(board: Board, margin: Margin, pack: Pack) -> None:
    """Write scale and legend, notes, then edition and safety words, downwards from the margin's height."""
    if board.side == "rear" and board.shows("dimensions"):
        _paragraph(board, margin, "Drawn mirrored, as seen from the rear. Every x is measured in the front view: mm from the left end of the front face.", part="dimensions")
    _legend(board, margin)
    if board.shows("notes"):
        for note in board.notes:
            _paragraph(board, margin, note, part="notes", css="text")
    if board.shows("safety"):
        margin.y -= 0.3 * board.em
        words = f"{pack.safety.aid} {pack.safety.lay} Before you drill: {pack.safety.drill[0]} {' '.join(pack.safety.drill[1:])}"
        _paragraph(board, margin, f"{pack.stated_edition}. {words}", part="safety")


def _paragraph(board: Board, margin: Margin, words: str, *, part: str, css: str = "text-quiet") -> None:
    size = 0.85 * board.em
    for line in wrapped(words, size, margin.room):
        margin.y -= LINE * size
        _line(board, margin, line, size, css=css, part=part, up=-LINE * size / 2)
    margin.y -= 0.25 * board.em


def legend_entries(board: Board) -> list[tuple[str, str]]:
    """Return class and words of each entry: only what is in the drawing."""
    whole = board.used("number-whole")
    words = {
        "cable": "cable: this stretch meets the rules of place" if whole else "cable: meets the rules here",
        "cable-fails": "does not: see the number",
        "number-whole": "a rule that the cable as a whole does not meet",
        "zone": "zone: a cable is expected here",
        "other-zone": "zone that does not serve this cable: expect one here all the same",
        "accessory-behind": "behind this face, or out of sight",
        "opening-cross": "opening",
        "corner": "corner",
        "fixing": "fixing",
    }
    return [(css, text) for css, text in words.items() if board.used(css)]


def _legend(board: Board, margin: Margin) -> None:
    em, size = board.em, 0.9 * board.em
    row, x = margin.y - 0.85 * em, margin.left
    items: list[tuple[str, str, float]] = []
    if board.shows("scale"):
        bar = next((step for step in (1000, 500, 200, 100) if step <= board.wall.length * 0.6), 50)
        items.append(("scale", "1 m" if bar == 1000 else f"{mm(bar)} mm", float(bar)))
    if board.shows("legend"):
        items += [(css, words, KEY * em) for css, words in legend_entries(board)]
    for css, words, wide in items:
        need = wide + 0.5 * em + text_width(words, size)
        if x > margin.left and x + need > margin.right:
            row, x = row - 1.7 * em, margin.left
        _sample(board, css, Box(x, row - 0.5 * em, x + wide, row + 0.5 * em))
        board.add(
            "margin",
            Text(css="text", part="legend", text=words, x=x + wide + 0.5 * em, y=row, size=size, anchor="start"),
        )
        x += need + 1.6 * em
    margin.y = row - 0.9 * em if items else margin.y


def _sample(board: Board, css: str, box: Box) -> None:
    x, y = box.centre
    ring = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    if css == "number-whole":
        board.add("margin", Disc(css=css, part="legend", x=x, y=y, radius=0.5 * board.em))
    elif css == "fixing":
        for one, other in ((ring[0], ring[2]), (ring[1], ring[3])):
            shrunk = tuple((x + (px - x) * 0.36, y + (py - y) * 0.8) for px, py in (one, other))
            board.add("margin", Line(css=css, part="legend", points=shrunk))
    elif css == "opening-cross":
        board.add("margin", Area(css="opening", part="legend", rings=(ring,)))
        for one, other in ((ring[0], ring[2]), (ring[1], ring[3])):
            board.add("margin", Line(css=css, part="legend", points=(one, other)))
    elif css == "scale":
        ends = tuple(Line(css=css, part="scale", points=((at, y - 0.25 * board.em), (at, y + 0.25 * board.em))) for at in (box.left, box.right))
        board.add("margin", Line(css=css, part="scale", points=((box.left, y), (box.right, y))), *ends)
    elif css in ("zone", "other-zone", "accessory-behind"):
        board.add("margin", Area(css=css, part="legend", rings=(ring,)))
        if css == "zone":
            _zone_sample(board, box, ring)
    else:
        board.add("margin", Line(css=css, part="legend", points=((box.left, y), (box.right, y))))


def _zone_sample(board: Board, box: Box, ring: Sequence[tuple[float, float]]) -> None:
    em, (x, y) = board.em, box.centre
    dots = tuple((x + dx * em, y + dy * em) for dx, dy in ((-0.8, 0.2), (0.0, 0.2), (0.8, 0.2), (-0.4, -0.2), (0.4, -0.2)))
    board.add("margin", Area(css="zone-edge", part="legend", rings=(tuple(ring),)), Dots(css="dots", part="legend", points=dots))
