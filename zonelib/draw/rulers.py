"""Dimensions below and at the left: where things lie, in the numbers a case file uses."""

from collections.abc import Sequence

from zonelib.draw.board import Board
from zonelib.draw.placing import spread
from zonelib.draw.shapes import Box, Line, Text, around
from zonelib.rules.words import mm

__all__ = ["ACROSS", "BELOW", "draw_rulers"]

BELOW = 4.6
"""Room that the ruler under the wall takes [em]."""

ACROSS = 5.6
"""Room that the ruler left of the wall takes [em]."""

_SAME = 0.5


def draw_rulers(board: Board) -> None:
    """Draw the running dimensions of everything on the face, from its left end and from the floor."""
    _below(board, _distinct(_places(board)))
    _left(board, _distinct(_heights(board)))


def _places(board: Board) -> list[float]:
    wall, face = board.wall, board.wall.face(board.side)
    edges = [edge for opening in wall.openings for edge in (opening.bounds[0], opening.bounds[2])]
    bends = [x for x, _ in wall.profile]
    centres = [one.x for one in board.accessories]
    return [0.0, wall.length, *edges, *bends, *centres, *face.internal_corners, *face.external_corners]


def _heights(board: Board) -> list[float]:
    edges = [edge for opening in board.wall.openings for edge in (opening.bounds[1], opening.bounds[3])]
    return [0.0, *edges, *(y for _, y in board.wall.profile), *(one.y for one in board.accessories)]


def _distinct(values: Sequence[float]) -> list[float]:
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > _SAME:
            kept.append(value)
    return kept


def _below(board: Board, places: Sequence[float]) -> None:
    em, foot = board.em, board.reach.bottom
    line, words = foot - 0.7 * em, foot - 2.5 * em
    texts = [_text(board, mm(place)) for place in places]
    upright = sum(text.box.width + 0.5 * em for text in texts) < board.wall.length + 4 * em
    sizes = [text.box.width + 0.5 * em if upright else 1.3 * em for text in texts]
    order = sorted(range(len(places)), key=lambda index: board.at(places[index]))
    wanted = [board.at(places[index]) for index in order]
    _rule(board, (wanted[0], line), (wanted[-1], line))
    for index, at, middle in zip(
        order, wanted, spread(wanted, [sizes[index] for index in order]), strict=True
    ):
        text = texts[index]
        drop = words if upright else foot - 1.75 * em - text.box.width / 2
        _tick(board, ((at, line + 0.25 * em), (at, line - 0.25 * em), (middle, foot - 1.6 * em)))
        _put(board, text, middle, drop, turned=not upright)


def _left(board: Board, heights: Sequence[float]) -> None:
    em, side = board.em, board.reach.left
    line = side - 0.7 * em
    _rule(board, (line, heights[0]), (line, heights[-1]))
    for at, middle in zip(heights, spread(heights, [1.3 * em] * len(heights)), strict=True):
        text = _text(board, mm(at))
        _tick(board, ((line + 0.25 * em, at), (line - 0.25 * em, at), (side - 1.6 * em, middle)))
        _put(board, text, side - 1.75 * em - text.box.width / 2, middle)


def _text(board: Board, words: str) -> Text:
    return Text(css="text-quiet", part="dimensions", text=words, x=0, y=0, size=0.88 * board.em)


def _put(board: Board, text: Text, x: float, y: float, *, turned: bool = False) -> None:
    board.add(
        "margin", Text(css=text.css, part=text.part, text=text.text, x=x, y=y, size=text.size, turned=turned)
    )


def _rule(board: Board, start: tuple[float, float], end: tuple[float, float]) -> None:
    board.add("margin", Line(css="rule", part="dimensions", points=(start, end)))


def _tick(board: Board, points: tuple[tuple[float, float], ...]) -> None:
    board.add("margin", Line(css="rule", part="dimensions", points=points))


def margin_of(board: Board) -> Box:
    """Return the room that all rulers take [mm]."""
    boxes = [shape.box for shape in board.layers["margin"] if isinstance(shape, Text)]
    boxes.append(around(*board.reach.centre, board.reach.width, board.reach.height))
    return Box(
        min(box.left for box in boxes), min(box.bottom for box in boxes),
        max(box.right for box in boxes), max(box.top for box in boxes),
    )  # fmt: skip
