"""The plan as walked so far, as a small drawing with its text alternative."""

import math
from collections.abc import Iterator
from html import escape
from itertools import pairwise

from zonelib.rules.words import mm
from zonelib.sheet.survey.walk import Walk
from zonelib.sheet.survey.words import say

__all__ = ["plan_svg", "plan_words"]

SIZE = 300.0
"""The longer side of the drawing [px]."""

EDGE = 34.0
"""Room round it for numbers [px]."""


def plan_svg(walk: Walk) -> str:
    """Return the plan as SVG: each wall with its number and length, and the gap dashed."""
    xs, ys = zip(*walk.corners, strict=True)
    scale = SIZE / max(max(xs) - min(xs), max(ys) - min(ys), 1.0)
    places = [((x - min(xs)) * scale + EDGE, (max(ys) - y) * scale + EDGE) for x, y in walk.corners]
    wide = (max(xs) - min(xs)) * scale + 2 * EDGE
    tall = (max(ys) - min(ys)) * scale + 2 * EDGE
    parts = "".join(_parts(walk, places))
    head = f'class="zl-plan" viewBox="0 0 {wide:.0f} {tall:.0f}" width="{wide:.0f}" role="img"'
    return f'<svg {head} aria-label="{escape(plan_words(walk))}">{parts}</svg>'


def _parts(walk: Walk, places: list[tuple[float, float]]) -> Iterator[str]:
    line = " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
    yield f'<polyline points="{line}" fill="none" stroke="#1c2733" stroke-width="3"/>'
    if not walk.closes:
        (x0, y0), (x1, y1) = places[-1], places[0]
        ends = f'x1="{x0:.1f}" y1="{y0:.1f}" x2="{x1:.1f}" y2="{y1:.1f}"'
        yield f'<line {ends} stroke="#7f1d5e" stroke-width="2" stroke-dasharray="7 5"/>'
    yield f'<circle cx="{places[0][0]:.1f}" cy="{places[0][1]:.1f}" r="5" fill="#0b5b55"/>'
    for number, (start, end) in enumerate(pairwise(places), start=1):
        far = math.dist(start, end) or 1.0
        aside = (end[1] - start[1]) / far * 16, -(end[0] - start[0]) / far * 16
        x, y = ((a + b) / 2 + off for a, b, off in zip(start, end, aside, strict=True))
        yield f'<text x="{x:.1f}" y="{y + 5:.1f}" text-anchor="middle" font-size="15">{number}</text>'


def plan_words(walk: Walk) -> str:
    """Return the plan in words."""
    walls = "; ".join(
        say("plan-wall", number=number, length=mm(length), turn=_turn(turn))
        for number, (length, turn) in enumerate(zip(walk.lengths, walk.turns, strict=True), start=1)
    )
    return f"{say('plan-alt')} {walls}."


def _turn(turn: float) -> str:
    if turn == 0:
        return say("turn-none")
    return say("turn-right" if turn > 0 else "turn-left", angle=mm(abs(turn)))
