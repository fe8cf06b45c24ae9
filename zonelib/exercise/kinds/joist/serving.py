"""Which cuts serve a cable that has to cross the joist."""

from collections.abc import Sequence
from typing import TypeVar

from zonelib.exercise.kinds.joist.answer import CutHole, CutNotch, JoistAnswer
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.site.timber import Joist
from zonelib.site.tolerance import above, below

__all__ = ["serving"]

Cut = TypeVar("Cut", CutHole, CutNotch)
Sizes = tuple[float, ...]


def serving(task: JoistTask, answer: JoistAnswer, joist: Joist) -> dict[str, float]:
    """Return the cuts that serve a cable, each with the diameter of that cable where it is a hole [mm].

    A cut serves one cable. It must lie in the timber and be large enough; of cuts that run into each
    other one serves, since they are one cut.
    """
    holes = {name: one for name, one in answer.named_holes().items() if _hole_in(one, joist)}
    notches = {name: one for name, one in answer.named_notches().items() if _notch_in(one, joist)}
    by_hole = _matched(
        [(name, (holes[name].diameter,)) for name in _apart(holes, joist)],
        [((need.least,), need.cable) for need in task.holes],
    )
    by_notch = _matched(
        [(name, (notches[name].length, notches[name].depth)) for name in _apart(notches, joist)],
        [((need.length, need.depth), 0.0) for need in task.notches],
    )
    return {**by_hole, **by_notch}


def _hole_in(hole: CutHole, joist: Joist) -> bool:
    half = hole.diameter / 2
    low, high = min(hole.x, hole.y), max(hole.x + half - joist.span, hole.y + half - joist.depth)
    return not below(low - half, 0.0) and not above(high, 0.0)


def _notch_in(notch: CutNotch, joist: Joist) -> bool:
    ends = notch.x - notch.length / 2, notch.x + notch.length / 2
    return not below(ends[0], 0.0) and not above(ends[1], joist.span) and below(notch.depth, joist.depth)


def _apart(cuts: dict[str, Cut], joist: Joist) -> list[str]:
    """Return the names of cuts that do not run into each other, the largest of each heap kept."""
    kept: list[str] = []
    for name in sorted(cuts, key=lambda name: _size(cuts[name]), reverse=True):
        if not any(_meet(cuts[name], cuts[other], joist) for other in kept):
            kept.append(name)
    return kept


def _size(cut: CutHole | CutNotch) -> Sizes:
    place = (cut.x, cut.y) if isinstance(cut, CutHole) else (cut.x, float(cut.edge == "top"))
    return (cut.diameter, *place) if isinstance(cut, CutHole) else (cut.length * cut.depth, *place)


def _meet(one: CutHole | CutNotch, other: CutHole | CutNotch, joist: Joist) -> bool:
    if isinstance(one, CutHole) and isinstance(other, CutHole):
        apart = ((one.x - other.x) ** 2 + (one.y - other.y) ** 2) ** 0.5
        return below(apart, (one.diameter + other.diameter) / 2)
    if isinstance(one, CutNotch) and isinstance(other, CutNotch):
        touching = one.edge == other.edge or above(one.depth + other.depth, joist.depth)
        return touching and below(abs(one.x - other.x), (one.length + other.length) / 2)
    return False


def _matched(cuts: Sequence[tuple[str, Sizes]], needs: Sequence[tuple[Sizes, float]]) -> dict[str, float]:
    """Give the most demanding need the smallest cut that is large enough for it, and so on."""
    left, served = sorted(cuts, key=lambda cut: cut[1]), dict[str, float]()
    for least, cable in sorted(needs, reverse=True):
        fits = (cut for cut in left if all(not below(*pair) for pair in zip(cut[1], least, strict=True)))
        if (found := next(fits, None)) is not None:
            left.remove(found)
            served[found[0]] = cable
    return served
