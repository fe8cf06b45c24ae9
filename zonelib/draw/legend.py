"""The legend and the scale: only what is in the drawing."""

from zonelib.draw.board import Board
from zonelib.draw.metrics import text_width
from zonelib.draw.shapes import Area, Box, Disc, Dots, Line, Text, corners_of
from zonelib.rules.words import mm

__all__ = ["draw_legend", "legend_entries"]

KEY = 2.4
"""Width of a legend's sample [em]."""

METRE = 1000
SCALES = (METRE, 500, 200, 100)
"""Lengths a scale bar may have [mm]."""

_FIVE = ((-0.8, 0.2), (0.0, 0.2), (0.8, 0.2), (-0.4, -0.2), (0.4, -0.2))


def legend_entries(board: Board) -> list[tuple[str, str]]:
    """Return class and words of each entry: only what is in the drawing."""
    whole = board.used("number-whole")
    words = {
        "cable": "cable: this stretch meets the rules of place" if whole else "cable: meets the rules here",
        "covering": "in a covering that counts",
        "cable-deep": f"cable {mm(board.book.pack.walls.trigger_depth)} mm or more below this face",
        "cable-void": "cable in a void, not in the wall",
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


def draw_legend(board: Board, *, left: float, right: float, top: float) -> float:
    """Draw scale and legend from a height downwards, and return the height reached [mm]."""
    em, size = board.em, 0.9 * board.em
    row, x = top - 0.85 * em, left
    items = [*_scale(board), *_keys(board)]
    for css, words, wide in items:
        need = wide + 0.5 * em + text_width(words, size)
        if x > left and x + need > right:
            row, x = row - 1.7 * em, left
        _sample(board, css, Box(x, row - 0.5 * em, x + wide, row + 0.5 * em))
        _words(board, words, x + wide + 0.5 * em, row)
        x += need + 1.6 * em
    return row - 0.9 * em if items else top


def _words(board: Board, words: str, x: float, y: float) -> None:
    text = Text(css="text", part="legend", text=words, x=x, y=y, size=0.9 * board.em, anchor="start")
    board.add("margin", text)


def _scale(board: Board) -> list[tuple[str, str, float]]:
    if not board.shows("scale"):
        return []
    bar = next((step for step in SCALES if step <= board.wall.length * 0.6), 50)
    return [("scale", "1 m" if bar == METRE else f"{mm(bar)} mm", float(bar))]


def _keys(board: Board) -> list[tuple[str, str, float]]:
    if not board.shows("legend"):
        return []
    return [(css, words, KEY * board.em) for css, words in legend_entries(board)]


def _sample(board: Board, css: str, box: Box) -> None:
    draw = _SAMPLES.get(css, _line_sample)
    draw(board, css, box)


def _line_sample(board: Board, css: str, box: Box) -> None:
    middle = box.centre[1]
    board.add("margin", Line(css=css, part="legend", points=((box.left, middle), (box.right, middle))))


def _covering_sample(board: Board, css: str, box: Box) -> None:
    _line_sample(board, css, box)
    _line_sample(board, "cable", box)


def _scale_sample(board: Board, css: str, box: Box) -> None:
    _line_sample(board, css, box)
    y, arm = box.centre[1], 0.25 * board.em
    for x in (box.left, box.right):
        board.add("margin", Line(css=css, part="legend", points=((x, y - arm), (x, y + arm))))


def _area_sample(board: Board, css: str, box: Box) -> None:
    board.add("margin", Area(css=css, part="legend", rings=(corners_of(box),)))


def _zone_sample(board: Board, css: str, box: Box) -> None:
    em, (x, y) = board.em, box.centre
    _area_sample(board, css, box)
    _area_sample(board, "zone-edge", box)
    dots = tuple((x + across * em, y + up * em) for across, up in _FIVE)
    board.add("margin", Dots(css="dots", part="legend", points=dots))


def _disc_sample(board: Board, css: str, box: Box) -> None:
    x, y = box.centre
    board.add("margin", Disc(css=css, part="legend", x=x, y=y, radius=0.5 * board.em))


def _opening_sample(board: Board, css: str, box: Box) -> None:
    _area_sample(board, "opening", box)
    _cross(board, css, box)


def _fixing_sample(board: Board, css: str, box: Box) -> None:
    (x, y), arm = box.centre, 0.4 * board.em
    _cross(board, css, Box(x - arm, y - arm, x + arm, y + arm))


def _cross(board: Board, css: str, box: Box) -> None:
    ring = corners_of(box)
    for ends in ((ring[0], ring[2]), (ring[1], ring[3])):
        board.add("margin", Line(css=css, part="legend", points=ends))


_SAMPLES = {
    "scale": _scale_sample,
    "covering": _covering_sample,
    "number-whole": _disc_sample,
    "zone": _zone_sample,
    "other-zone": _area_sample,
    "accessory-behind": _area_sample,
    "opening-cross": _opening_sample,
    "fixing": _fixing_sample,
}
