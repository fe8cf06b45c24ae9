"""Say whether a plan closes, and if not by how much it is out and what would mend it."""

from collections.abc import Iterator

from zonelib.rules.words import mm
from zonelib.sheet.survey.notes import Notes
from zonelib.sheet.survey.walk import ONCE_ROUND, Walk
from zonelib.sheet.survey.words import say
from zonelib.site.tolerance import same

__all__ = ["closing"]

FEWEST = 3


def closing(walk: Walk | None, notes: Notes) -> Iterator[str]:
    """Yield what to know of the plan as it stands, a sentence or two at a time."""
    if walk is None:
        yield say("plan-unmeasured" if notes.walls else "plan-none")
    elif walk.closes:
        yield say("plan-closes", walls=len(walk.lengths))
        yield from _turns(walk)
    else:
        yield from _gap(walk, spread=notes.spread)


def _gap(walk: Walk, *, spread: bool) -> Iterator[str]:
    across, up = walk.gap
    way = {
        "across": mm(abs(across)), "side": say("right" if across > 0 else "left"),
        "up": mm(abs(up)), "end": say("up" if up > 0 else "down"),
    }  # fmt: skip
    if spread and walk.may_spread:
        yield say("plan-spread", gap=mm(walk.open_by))
        return
    yield say("plan-open", walls=len(walk.lengths), gap=mm(walk.open_by), **way)
    if len(walk.lengths) < FEWEST:
        return
    for number, length in walk.closers():
        yield say("plan-closer", number=number, length=mm(length))
    if walk.may_spread:
        yield say("plan-may-spread")
    yield from _turns(walk)


def _turns(walk: Walk) -> Iterator[str]:
    if not same(walk.turned, ONCE_ROUND):
        yield say("plan-turns", turned=mm(walk.turned))
