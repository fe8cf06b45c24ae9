"""Change what is cut in a stud."""

import math
from collections.abc import Iterator

from zonelib.coach.remedies.holes import covered_cuts, sizes
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task, swapped
from zonelib.rules.words import mm
from zonelib.site.model import Case
from zonelib.site.timber import Hole

__all__ = ["cover_stud_cut", "mend_stud_hole", "mend_stud_notch"]


def mend_stud_hole(task: Task) -> Iterator[Advice]:
    """Yield a stud's hole on the middle of the stud, then smaller ones there."""
    for hole in (one for one in task.stud.holes if one.id == task.finding.subject):
        for size in sizes(hole):
            for x in dict.fromkeys((hole.x, task.stud.depth / 2)):
                new = hole.model_copy(update={"x": x, "diameter": size})
                if new != hole:
                    words = say("stud-hole", hole=hole.id, x=mm(x), size=mm(size))
                    yield Remedy("move-hole", words, say("move-hole-cost"), _with_hole(task, new))


def _with_hole(task: Task, hole: Hole) -> Case:
    return task.with_stud(task.stud.model_copy(update={"holes": swapped(task.stud.holes, hole)}))


def mend_stud_notch(task: Task) -> Iterator[Advice]:
    """Yield a stud's notch less deep, or moved clear of the hole."""
    limits, names = task.pack.studs, (task.finding.subject,)
    if limits is None:
        return
    shares = limits.other if task.stud.bearing is False else limits.bearing
    for notch in (one for one in task.stud.notches if one.id in names):
        flat = min(notch.depth, math.floor(shares.notch * task.stud.depth))
        clear = (limits.clear_of_notches or 0.0) + notch.length / 2
        reaches = [(hole.y, clear + hole.diameter / 2) for hole in task.stud.holes]
        places = [notch.y, *(y + sign * by for y, by in reaches for sign in (-1, 1))]
        for y in sorted(places, key=lambda place: abs(place - notch.y)):
            new = notch.model_copy(update={"depth": flat, "y": y})
            stud = task.stud.model_copy(update={"notches": swapped(task.stud.notches, new)})
            words = say("stud-notch", notch=notch.id, y=mm(y), depth=mm(flat))
            if new != notch and 0 <= y <= task.stud.height:
                yield Remedy("smaller-notch", words, say("notch-cost"), task.with_stud(stud))


def cover_stud_cut(task: Task) -> Iterator[Advice]:
    """Yield the hole or notch in a stud behind a covering that counts."""
    for stud, words, cost in covered_cuts(task, task.stud):
        yield Remedy("choose-covering", words, cost, task.with_stud(stud))
