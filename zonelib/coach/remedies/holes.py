"""Move a hole in a joist, or make it smaller."""

import math
from collections.abc import Iterator
from typing import TypeVar

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.coach.remedies.covering import counting
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import covering_words, say
from zonelib.coach.remedies.task import Task, swapped
from zonelib.rules.hole_region import hole_region
from zonelib.rules.words import mm
from zonelib.site.timber import Hole, Joist, Stud
from zonelib.site.tolerance import TOLERANCE

__all__ = ["cover_cut", "covered_cuts", "move_hole", "nearest_inside", "sizes", "use_gap"]

Member = TypeVar("Member", Joist, Stud)

STEP = 1.0
"""Holes are made smaller in steps of a drill [mm]."""


def move_hole(task: Task) -> Iterator[Advice]:
    """Yield each hole of the finding moved to the nearest place it may have, smaller where it must be."""
    for hole in _holes(task):
        for diameter in sizes(hole):
            moved = _placed(task, hole, diameter)
            if moved is not None:
                yield _remedy(task, hole, moved)
                break
    yield from _no_place(task)


def _holes(task: Task) -> list[Hole]:
    names = (task.finding.subject, task.finding.where.other)
    return [hole for hole in task.joist.holes if hole.id in names]


def sizes(hole: Hole) -> Iterator[float]:
    """Yield the diameters a hole may have: as it is, then whole ones down to its cable."""
    yield hole.diameter
    least = hole.cable_diameter or hole.diameter
    size = math.ceil(hole.diameter) - STEP
    while size >= least - TOLERANCE:
        yield size
        size -= STEP


def _placed(task: Task, hole: Hole, diameter: float) -> Hole | None:
    """Return a hole of a size at the nearest place it may have beside all other cuts."""
    rest = tuple(one for one in task.joist.holes if one.id != hole.id)
    bare = task.joist.model_copy(update={"holes": rest})
    covered = task.book.counts(hole.protection)
    region = hole_region(bare, task.pack, diameter=diameter, covered=covered)
    place = nearest_inside(region.area, hole.x, hole.y)
    middle = (place[0], task.joist.depth / 2) if place else None
    if middle and place != (hole.x, hole.y) and region.area.covers(shapely.Point(middle)):
        place = middle
    if place is None:
        return None
    return hole.model_copy(update={"x": place[0], "y": place[1], "diameter": diameter})


def nearest_inside(area: BaseGeometry, x: float, y: float) -> tuple[float, float] | None:
    """Return the nearest place of an area, whole numbers where they lie inside [mm]."""
    if area.is_empty:
        return None
    point = shapely.Point(x, y)
    near = point if area.covers(point) else shapely.shortest_line(area, point).interpolate(0)
    whole = [
        (round_x(near.x), round_y(near.y))
        for round_x in (_down, _up) for round_y in (_down, _up)
    ]  # fmt: skip
    inside = [place for place in whole if area.covers(shapely.Point(place))]
    return min(inside, key=lambda place: math.dist(place, (x, y)), default=(near.x, near.y))


def _down(value: float) -> float:
    return float(math.floor(value + TOLERANCE))


def _up(value: float) -> float:
    return float(math.ceil(value - TOLERANCE))


def _remedy(task: Task, hole: Hole, moved: Hole) -> Remedy:
    smaller, away = moved.diameter < hole.diameter, math.dist((hole.x, hole.y), (moved.x, moved.y))
    kind = "smaller-hole" if away <= TOLERANCE else "move-hole"
    name = "move-smaller-hole" if smaller and kind == "move-hole" else kind
    words = say(name, hole=hole.id, x=mm(moved.x), y=mm(moved.y), size=mm(moved.diameter))
    joist = task.joist.model_copy(update={"holes": swapped(task.joist.holes, moved)})
    return Remedy(kind, words, say(f"{kind}-cost"), task.with_joist(joist))


def _no_place(task: Task) -> Iterator[Advice]:
    """Yield why a hole has no place: the rule that leaves none for the smallest size."""
    for hole in _holes(task):
        bare = task.joist.model_copy(
            update={"holes": tuple(one for one in task.joist.holes if one.id != hole.id)}
        )
        least = min(sizes(hole))
        region = hole_region(bare, task.pack, diameter=least, covered=task.book.counts(hole.protection))
        if region.area.is_empty:
            yield Impossible("move-hole", _no_place_words(task, hole, least, region.emptied_by))
            return


def _no_place_words(task: Task, hole: Hole, least: float, rule: str) -> str:
    joist, limits = task.joist, task.pack.joists
    facts = {"hole": hole.id, "size": mm(least), "depth": mm(joist.depth)}
    if limits is None or rule not in {"joist-hole-size", "joist-cover"}:
        return say("no-hole", **facts)
    if rule == "joist-hole-size":
        return say("no-hole-size", limit=mm(limits.hole.diameter * joist.depth), **facts)
    return say("no-hole-cover", cover=mm(limits.cover), needed=mm(2 * limits.cover + least), **facts)


def cover_cut(task: Task) -> Iterator[Advice]:
    """Yield the hole or notch with a covering that counts; a plate first, since nothing else fits a notch."""
    for joist, words, cost in covered_cuts(task, task.joist):
        yield Remedy("choose-covering", words, cost, task.with_joist(joist))


def covered_cuts(task: Task, member: Member) -> Iterator[tuple[Member, str, str]]:
    """Yield a member with the cut behind each covering that counts, what to do, and what it costs."""
    subject = task.finding.subject
    for name in sorted(counting(task), key=lambda one: not covering_words(one)["over_a_cable"]):
        covered = {
            part: tuple(
                one.model_copy(update={"protection": name}) if one.id == subject else one
                for one in getattr(member, part)
            )
            for part in ("holes", "notches")
        }
        words = say("cover-cut", cut=subject, covering=task.pack.protections[name].words)
        yield member.model_copy(update=covered), words, covering_words(name)["cost"]


def use_gap(task: Task) -> Iterator[Advice]:
    """Yield a metal-web joist left whole, the cable through its gaps; for others, who decides."""
    joist, limits = task.joist, task.pack.joists
    if limits is None:
        return
    kind = limits.kinds[joist.kind]
    if joist.kind == "metal-web":
        whole: Joist = joist.model_copy(update={"holes": (), "notches": ()})
        yield Remedy("use-gap", say("use-gap", joist=joist.id), say("use-gap-cost"), task.with_joist(whole))
    elif kind.may_be_cut and limits.deepest is not None:
        facts = {"depth": mm(joist.depth), "deepest": mm(limits.deepest), "who": kind.who_decides}
        yield Impossible("cut-less", say("too-deep", joist=joist.id, **facts))
    else:
        words = say("not-by-rule", joist=joist.id, kind=kind.words, who=kind.who_decides)
        yield Impossible("cut-less", words)
