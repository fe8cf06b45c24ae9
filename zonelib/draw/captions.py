"""What stands round a drawing: title, scale, legend, notes, edition and safety words."""

from dataclasses import dataclass

from zonelib.draw.board import Board
from zonelib.draw.legend import draw_legend
from zonelib.draw.metrics import LINE, wrapped
from zonelib.draw.shapes import Text
from zonelib.rules.pack import Pack

__all__ = ["Margin", "draw_foot", "draw_head"]

MIRRORED = (
    "Drawn mirrored, as seen from the rear. "
    "Every x is measured in the front view: mm from the left end of the front face."
)


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
    board: Board,
    margin: Margin,
    words: str,
    size: float,
    *,
    css: str,
    part: str,
    up: float,
    bold: bool = False,
) -> None:
    board.add(
        "margin",
        Text(
            css=css,
            part=part,
            text=words,
            x=margin.left,
            y=margin.y - up,
            size=size,
            anchor="start",
            bold=bold,
        ),
    )


def draw_foot(board: Board, margin: Margin, pack: Pack) -> None:
    """Write scale and legend, notes, then edition and safety words, downwards from the margin's height."""
    if board.side == "rear" and board.shows("dimensions"):
        _paragraph(board, margin, MIRRORED, part="dimensions")
    margin.y = draw_legend(board, left=margin.left, right=margin.right, top=margin.y)
    for note in board.notes if board.shows("notes") else ():
        _paragraph(board, margin, note, part="notes", css="text")
    if board.shows("safety"):
        margin.y -= 0.3 * board.em
        _paragraph(board, margin, _safety(pack), part="safety")


def _safety(pack: Pack) -> str:
    safety = pack.safety
    return " ".join([f"{pack.stated_edition}.", safety.aid, safety.lay, "Before you drill:", *safety.drill])


def _paragraph(board: Board, margin: Margin, words: str, *, part: str, css: str = "text-quiet") -> None:
    size = 0.85 * board.em
    for line in wrapped(words, size, margin.room):
        margin.y -= LINE * size
        _line(board, margin, line, size, css=css, part=part, up=-LINE * size / 2)
    margin.y -= 0.25 * board.em
