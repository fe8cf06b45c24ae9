"""How much room a text takes, without asking any font on the machine."""

import unicodedata
from functools import lru_cache

__all__ = ["LINE", "text_width", "wrapped"]

LINE = 1.25
"""Height of a line of text [em]."""

# Advance widths of DejaVu Sans in thousandths of an em; wider than the usual sans-serif faces,
# so that a picture drawn with another one still has room.
_WIDTHS = {
    275: "'", 278: "ijl", 295: "IJ", 318: " ,.·’", 337: "/:;\\|", 352: "f", 361: "-", 390: "()[]", 392: "t",
    401: "!", 411: "r", 460: '"', 500: "*_`–°", 521: "s", 525: "z", 531: "?", 550: "c", 557: "L", 575: "F",
    579: "k", 592: "vxy", 603: "P", 611: "TY", 613: "oa", 615: "e", 632: "E", 636: "hnuSbdgpq$0123456789{}",
    656: "K", 685: "AVXZ", 686: "B", 698: "RC", 732: "U", 752: "NH", 775: "DG", 787: "&OQ", 818: "w",
    838: "#+<=>^~×", 863: "M", 950: "%", 974: "m", 989: "W", 1000: "@",
}  # fmt: skip
_ADVANCE = {letter: width / 1000 for width, letters in _WIDTHS.items() for letter in letters}
_UNKNOWN = 0.85
_WIDE = 1.1
_BOLD = 1.13
_SLACK = 1.03


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of one line of text, on the safe side.

    Parameters
    ----------
    text : str
        The line.
    size : float
        The em [mm].
    bold : bool
        Whether it is set bold.

    Returns
    -------
    float
        Its width [mm].
    """
    em = sum(_ADVANCE.get(letter) or _other(letter) for letter in text)
    return em * size * _SLACK * (_BOLD if bold else 1.0)


def _other(letter: str) -> float:
    if unicodedata.combining(letter):
        return 0.0
    base = unicodedata.normalize("NFD", letter)[0]
    if base in _ADVANCE:
        return _ADVANCE[base]
    return _WIDE if unicodedata.east_asian_width(letter) in "WF" else _UNKNOWN


def wrapped(text: str, size: float, room: float) -> tuple[str, ...]:
    """Return a text broken into lines that fit a width [mm]; a longer word is cut."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.extend(_cut(word, size, room))
    return tuple(lines)


def _cut(word: str, size: float, room: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, size) > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces
