"""Sign-in codes as slips of paper: several on an A4 page, with lines to cut along."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["Slip", "write_slips"]

A4 = (210.0, 297.0)  # mm
ACROSS, DOWN = 2, 5
MARGIN = 8.0  # mm: printers leave about 5 mm blank
INCH = 25.4
LONGEST = 40


@dataclass(frozen=True)
class Slip:
    """What one slip says."""

    number: str
    code: str
    minutes: str = ""
    name: str = ""


def write_slips(path: Path, slips: Sequence[Slip], *, title: str, address: str = "") -> Path:
    """Write the slips of a sitting into a PDF and return its path.

    Parameters
    ----------
    path : Path
        Ends in ``.pdf``.
    slips : sequence of Slip
        In the order they are printed.
    title, address : str
        Of the sitting, and what to type into a browser; "" leaves a line to write it on.
    """
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure

    each = ACROSS * DOWN
    with PdfPages(path, metadata={"Title": f"Codes: {title}"}) as pages:
        for first in range(0, len(slips), each):
            figure = Figure(figsize=(A4[0] / INCH, A4[1] / INCH))
            sheet = figure.add_axes((0.0, 0.0, 1.0, 1.0))
            sheet.set(xlim=(0, A4[0]), ylim=(A4[1], 0))
            sheet.axis("off")
            for at, slip in enumerate(slips[first : first + each]):
                _slip(sheet, slip, at, title=title, address=address)
            _cuts(sheet)
            pages.savefig(figure)
    return path


def _cell() -> tuple[float, float]:
    return (A4[0] - 2 * MARGIN) / ACROSS, (A4[1] - 2 * MARGIN) / DOWN


def _slip(sheet: "Axes", slip: Slip, at: int, *, title: str, address: str) -> None:
    wide, high = _cell()
    left, top = MARGIN + at % ACROSS * wide + 6, MARGIN + at // ACROSS * high
    where = f"Open {address}" if address else "Open  ______________________________"
    who = f"{slip.number}   {_short(slip.name)}".strip()
    lines = [(7.0, 9.0, "normal", _short(title)), (14.5, 12.0, "bold", who), (22.0, 9.0, "normal", where)]
    lines += [(41.0, 9.0, "normal", f"Time: {slip.minutes}." if slip.minutes else "No time limit.")]
    lines += [(46.5, 7.5, "normal", "One device at a time. Keep this slip to yourself.")]
    for down, size, weight, words in lines:
        sheet.text(left, top + down, words, fontsize=size, fontweight=weight, va="center", color="#1c2733")
    sheet.text(
        left,
        top + 31.5,
        slip.code,
        fontsize=24,
        family="monospace",
        fontweight="bold",
        va="center",
        color="#1c2733",
    )


def _short(words: str) -> str:
    line = " ".join("".join(sign if sign.isprintable() else " " for sign in words).split()).replace(
        "$", r"\$"
    )
    return line if len(line) <= LONGEST else f"{line[: LONGEST - 1]}…"


def _cuts(sheet: "Axes") -> None:
    wide, high = _cell()
    style: dict[str, Any] = {"color": "#6d7c88", "linewidth": 0.6, "linestyle": (0, (4, 3))}
    for column in range(ACROSS + 1):
        sheet.plot([MARGIN + column * wide] * 2, [2, A4[1] - 2], **style)
    for row in range(DOWN + 1):
        sheet.plot([2, A4[0] - 2], [MARGIN + row * high] * 2, **style)
