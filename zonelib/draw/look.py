"""The look: one table of styles that both pens read, so that they cannot differ."""

from dataclasses import dataclass

__all__ = ["INK", "LOOK", "PAPER", "PAPER_SAND", "Style", "style_of"]

PAPER = "#ffffff"
INK = "#1c2733"
QUIET = "#4a5663"
TEAL = "#0b5b55"
PLUM = "#7f1d5e"
SAND = "#f7ecd5"
SAND_EDGE = "#8c6d2f"
SAND_INK = "#5b4413"
PAPER_SAND = (PAPER, SAND)
"""Grounds that text may stand on."""


@dataclass(frozen=True)
class Style:
    """How one class is drawn; widths and dashes in ems of the drawing.

    Attributes
    ----------
    fill, stroke : str
        Colours, or "" for none.
    width : float
        Of the stroke [em].
    dash : tuple of float
        Lengths of dash and gap [em], or () for a solid line.
    forced : str
        System colour that takes over where the reader's system sets the colours.
    round : bool
        Whether lines end round.
    """

    fill: str = ""
    stroke: str = ""
    width: float = 0.0
    dash: tuple[float, ...] = ()
    forced: str = "CanvasText"
    round: bool = False


LOOK = {
    "paper": Style(fill=PAPER, forced="Canvas"),
    "face": Style(fill=PAPER, forced="Canvas"),
    "outline": Style(stroke=INK, width=0.16),
    "zone": Style(fill=SAND, forced="Canvas"),
    "zone-edge": Style(stroke=SAND_EDGE, width=0.07),
    "dots": Style(stroke=SAND_EDGE, width=0.12, round=True),
    "other-zone": Style(stroke=QUIET, width=0.075, dash=(0.42, 0.3), forced="GrayText"),
    "opening": Style(fill=PAPER, stroke=INK, width=0.11, forced="Canvas"),
    "opening-cross": Style(stroke=QUIET, width=0.045, forced="GrayText"),
    "corner": Style(stroke=INK, width=0.09, dash=(0.7, 0.2, 0.12, 0.2)),
    "accessory": Style(fill=PAPER, stroke=INK, width=0.14, forced="Canvas"),
    "accessory-behind": Style(fill=PAPER, stroke=INK, width=0.12, dash=(0.34, 0.22), forced="Canvas"),
    "cable": Style(stroke=TEAL, width=0.3, round=True, forced="CanvasText"),
    "covering": Style(stroke=INK, width=0.62, forced="GrayText"),
    "cable-deep": Style(stroke=TEAL, width=0.2, dash=(0.1, 0.4), round=True, forced="CanvasText"),
    "cable-void": Style(stroke=TEAL, width=0.12, dash=(0.9, 0.3), forced="CanvasText"),
    "cable-fails": Style(stroke=PLUM, width=0.3, dash=(0.75, 0.35), forced="Highlight"),
    "drawn": Style(stroke=TEAL, width=0.2),
    "missed": Style(stroke=PLUM, width=0.26, dash=(0.75, 0.35), forced="Highlight"),
    "marked": Style(stroke=INK, width=0.12, dash=(0.3, 0.2)),
    "strayed": Style(stroke=PLUM, width=0.14, forced="Highlight"),
    "strayed-hatch": Style(stroke=PLUM, width=0.06, forced="Highlight"),
    "item": Style(stroke=INK, width=0.14),
    "cut": Style(fill=PAPER, stroke=INK, width=0.13, forced="Canvas"),
    "cut-fails": Style(fill=PAPER, stroke=PLUM, width=0.15, dash=(0.18, 0.1), forced="Highlight"),
    "point": Style(fill=PAPER, stroke=INK, width=0.13, forced="Canvas"),
    "number": Style(fill=PLUM, stroke=PAPER, width=0.06, forced="Highlight"),
    "number-whole": Style(fill=PAPER, stroke=PLUM, width=0.16, forced="Canvas"),
    "fixing": Style(stroke=INK, width=0.14),
    "leader": Style(stroke=QUIET, width=0.07, forced="GrayText"),
    "rule": Style(stroke=QUIET, width=0.07),
    "scale": Style(stroke=INK, width=0.18),
    "plate": Style(fill=PAPER, forced="Canvas"),
    "plate-zone": Style(fill=SAND, forced="Canvas"),
    "text": Style(fill=INK),
    "text-title": Style(fill=INK),
    "text-quiet": Style(fill=QUIET),
    "text-zone": Style(fill=SAND_INK),
    "text-other": Style(fill=QUIET),
    "text-number": Style(fill=PAPER, forced="HighlightText"),
    "text-number-whole": Style(fill=PLUM),
}
"""Style of each class."""


def style_of(css: str) -> Style:
    """Return the style of a class.

    Raises
    ------
    KeyError
        If no such class is in the table: a shape without a look is a defect of the builder.
    """
    return LOOK[css]
