"""Charts of a class, drawn by matplotlib as SVG that stands in a page: no scripts, no outside files."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING, Any

from zonelib.draw.look import INK, PAPER, PLUM, QUIET, SAND, SAND_EDGE, TEAL

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from zonelib.desk.statistics import Item, Spread

__all__ = ["BANDS", "band_counts", "facility_chart", "marks_chart"]

BANDS = 10
"""Bars of the marks: each covers so many per cent [%]."""

LOOK: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "class",
    "font.family": "DejaVu Sans",
    "font.size": 11,
    "text.color": INK,
    "axes.edgecolor": QUIET,
    "axes.labelcolor": INK,
    "xtick.color": INK,
    "ytick.color": INK,
    "axes.spines.top": False,
    "axes.spines.right": False,
}


def band_counts(shares: Sequence[float]) -> tuple[int, ...]:
    """Return how many shares lie in each tenth; full marks belong to the last."""
    places = [min(int(one * 100 / BANDS + 1e-9), 100 // BANDS - 1) for one in shares]
    return tuple(places.count(at) for at in range(100 // BANDS))


def marks_chart(shares: Sequence[float], spread: Spread, *, name: str) -> str:
    """Draw how marks are spread: a bar for each tenth, and middle, quartiles and range above them."""
    import matplotlib as mpl

    with mpl.rc_context(LOOK):
        drawn, axes = _axes(7.2, 3.0)
        counts = band_counts(shares)
        places = [BANDS * (at + 0.5) for at in range(len(counts))]
        bars = axes.bar(places, counts, width=BANDS * 0.9, color=SAND, edgecolor=SAND_EDGE, linewidth=1.2)
        axes.bar_label(bars, [str(one) if one else "" for one in counts], padding=2)
        _box(axes, spread, height=max(counts) * 1.28)
        axes.set(xlim=(0, 100), ylim=(0, max(counts) * 1.55), xlabel="Share of the marks [%]")
        axes.set(ylabel="Trainees", xticks=range(0, 101, BANDS), yticks=_whole(max(counts)))
        return _svg(drawn, name, "How the marks are spread", _spread_words(spread))


def _whole(most: int) -> range:
    return range(0, most + 1, max(1, most // 5))


def _box(axes: Axes, spread: Spread, *, height: float) -> None:
    """Draw the range as a line, the middle half as a thick one, and the middle as a mark."""
    low, first, middle, third, high = (
        100 * one for one in (spread.least, spread.lower, spread.median, spread.upper, spread.greatest)
    )
    axes.plot([low, high], [height, height], color=TEAL, linewidth=1.5, marker="|", markersize=9)
    axes.plot([first, third], [height, height], color=TEAL, linewidth=7, solid_capstyle="butt")
    axes.plot(
        [middle], [height], marker="D", markersize=8, color=PAPER, markeredgecolor=INK, markeredgewidth=1.5
    )
    axes.text(middle, height * 1.07, f"middle {middle:.0f} %", ha="center", va="bottom")


def _spread_words(spread: Spread) -> str:
    return (
        f"{spread.people} trainees, from {100 * spread.least:.0f} to {100 * spread.greatest:.0f} %; "
        f"half of them between {100 * spread.lower:.0f} and {100 * spread.upper:.0f} %, "
        f"middle {100 * spread.median:.0f} %. The table below has every bar."
    )


def facility_chart(items: Sequence[Item], *, name: str) -> str:
    """Draw the facility of each exercise as a bar that ends in its number."""
    import matplotlib as mpl

    with mpl.rc_context(LOOK):
        drawn, axes = _axes(7.2, 0.8 + 0.34 * len(items))
        ordered = sorted(items, key=lambda one: one.facility)
        values = [100 * one.facility for one in ordered]
        axes.barh([one.name for one in ordered], values, height=0.66, color=TEAL)
        for at, one in enumerate(values):
            axes.text(103, at, f"{one:.0f} %", va="center")
        axes.axvline(80, color=PLUM, linewidth=1.2, linestyle=(0, (5, 3)))
        axes.set(xlim=(0, 116), xticks=range(0, 101, 20), xlabel="Mean share of the marks [%]; dashed: 80 %")
        axes.tick_params(axis="y", length=0)
        words = "; ".join(f"{one.name} {100 * one.facility:.0f} %" for one in ordered)
        return _svg(drawn, name, "Facility of each exercise, the hardest at the bottom", words)


def _axes(width: float, height: float) -> tuple[Figure, Axes]:
    from matplotlib.figure import Figure

    drawn = Figure(figsize=(width, height), layout="constrained")
    return drawn, drawn.add_subplot()


def _svg(drawn: Figure, name: str, title: str, words: str) -> str:
    """Return a drawing as an element whose ids are its own, with title and description in it."""
    text = io.StringIO()
    drawn.savefig(text, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    body = text.getvalue()
    body = re.sub(r'\bid="', f'id="{name}-', body[body.index("<svg") :])
    body = re.sub(r'(href="#|url\(#)', rf"\g<1>{name}-", body)
    head = re.search(r'viewBox="[^"]*"', body)
    start = body.index(">") + 1
    told = f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(words)}</desc>'
    opened = (
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" class="chart" '
        f'{head.group() if head else ""} role="img" aria-labelledby="{name}-title {name}-desc">'
    )
    # Its own style is for every element, which in a page would mean those of the page too.
    rest = re.sub(r"<(metadata|style)\b.*?</\1>", "", body[start:], flags=re.DOTALL)
    return f"{opened}{told}{rest}"
