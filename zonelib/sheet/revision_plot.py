"""Progress as a plot, and the same in words: both from the same rows."""

from base64 import b64encode
from collections.abc import Sequence
from datetime import datetime
from html import escape
from io import BytesIO

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from zonelib.coach.mastery.overview import Row
from zonelib.draw.look import INK, PAPER, QUIET, TEAL
from zonelib.sheet.revision_words import tell

__all__ = ["in_words", "progress_figure", "progress_html", "progress_png"]

LATEST = 10
"""So many of the latest sittings are drawn."""

ROW = 0.42
"""Height of a row [inches]."""

DPI = 110
FONT = {"font.family": "DejaVu Sans", "font.size": 10.5}


def progress_figure(rows: Sequence[Row], *, needed: int, now: datetime) -> Figure:
    """Return the plot: for each family its latest sittings, where it stands, and when it is due."""
    with rc_context(FONT):  # type: ignore[arg-type]  # the stubs know each key by name
        drawn = Figure(figsize=(9, ROW * (len(rows) + 1.2)), dpi=DPI, facecolor=PAPER)
        FigureCanvasAgg(drawn)
        axes = drawn.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set(xlim=(0, 100), ylim=(len(rows) - 0.4, -1.6))
        axes.set_axis_off()
        for x, head in zip((1, 33, 59, 85), tell("columns").split("|"), strict=True):
            axes.text(x, -1.0, head, color=QUIET, va="center", weight="bold")
        for at, row in enumerate(rows):
            _draw(axes, row, at, needed=needed, now=now)
        return drawn


def _draw(axes: Axes, row: Row, at: int, *, needed: int, now: datetime) -> None:
    axes.axhline(at - 0.5, color="#b9c3ca", linewidth=0.6)
    strong = "bold" if row.state == "mastered" else "normal"
    axes.text(1, at, row.words, color=INK, va="center")
    axes.text(
        59, at, _stands(row, needed), color=TEAL if strong == "bold" else INK, va="center", weight=strong
    )
    axes.text(85, at, _due(row, now), color=INK, va="center")
    for place, met in enumerate(row.met[-LATEST:]):
        fill = TEAL if met else PAPER
        axes.plot(
            34 + 2.3 * place, at, "o", markersize=9, markerfacecolor=fill, markeredgecolor=TEAL, mew=1.6
        )


def _stands(row: Row, needed: int) -> str:
    if row.state == "not yet":
        return tell("not-yet", n=min(row.in_a_row, needed), of=needed)
    return tell("mastered") if row.state == "mastered" else tell("new-state")


def _due(row: Row, now: datetime) -> str:
    if row.due is None:
        return ""
    day = row.due.astimezone().date()
    return tell("due-now") if row.due <= now else f"{day.day} {day:%b %Y}"


def _so_far(row: Row) -> str:
    return tell("met-of", met=sum(row.met), of=len(row.met)) if row.met else tell("none")


def progress_png(rows: Sequence[Row], *, needed: int, now: datetime) -> str:
    """Return the plot as a PNG in base64."""
    picture = BytesIO()
    progress_figure(rows, needed=needed, now=now).savefig(picture, format="png")
    return b64encode(picture.getvalue()).decode()


def in_words(rows: Sequence[Row], *, needed: int, now: datetime) -> str:
    """Return the same as the plot in words, a line for each row."""
    lines = []
    for row in rows:
        due = f", {tell('columns').split('|')[3].lower()}: {_due(row, now)}" if row.due else ""
        lines.append(f"{row.words}: {_stands(row, needed)}, {_so_far(row)}{due}.")
    return "\n".join(lines)


def progress_html(rows: Sequence[Row], *, needed: int, now: datetime) -> str:
    """Return the plot with the same in words folded below it."""
    picture = progress_png(rows, needed=needed, now=now)
    words = in_words(rows, needed=needed, now=now)
    listed = "".join(f"<li>{escape(line)}</li>" for line in words.splitlines())
    alt = escape(f"{tell('heading')}. {words}".replace("\n", " "), quote=True)
    image = f'<img src="data:image/png;base64,{picture}" alt="{alt}" style="max-width: 100%; width: 56em">'
    key = f"<p>{escape(tell('key'))}</p>"
    return f"{image}{key}<details><summary>This picture in words</summary><ul>{listed}</ul></details>"
