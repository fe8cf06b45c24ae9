"""Zones and lines: where a cable in a wall may lie."""

from collections.abc import Iterator
from typing import Any

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.rules.finding import Finding, Status
from zonelib.rules.job import SIDES, Job
from zonelib.rules.legs import Leg
from zonelib.rules.saying import Measure
from zonelib.rules.stretches import Stretch, farthest, stretches
from zonelib.rules.words import beside, listed, mm
from zonelib.site.model import Side

__all__ = ["wall_line", "wall_zone"]


def wall_zone(job: Job) -> Iterator[Finding]:
    """Judge on each face whether the cable's width lies in the zone wherever that face is concerned."""
    if job.book.pack.walls.policy in {"rcd-or-covering", "edge-clearance-only"}:
        return
    for side in SIDES:
        yield from _on_face(job, side)


def _on_face(job: Job, side: Side) -> Iterator[Finding]:
    concerned = [leg for leg in job.legs if job.concerns(leg, side)]
    bare = [leg for leg in concerned if not job.exempt(leg)]
    if not concerned:
        yield _unconcerned(job, side)
    elif not bare:
        yield _exempted(job, side, concerned)
    else:
        yield from _zoned(job, side, bare)


def _unconcerned(job: Job, side: Side) -> Finding:
    limit = job.book.pack.walls.trigger_depth
    nearest = min((leg.depth(side) for leg in job.legs), default=None)
    return job.finding(
        "wall-zone", "deep", "not-applicable", where=job.place(job.legs, face=side),
        clause=job.book.pack.walls.clause, measure=Measure(nearest, limit, ">="),
        face=side, trigger=mm(limit), depth="–" if nearest is None else beside(nearest, limit),
    )  # fmt: skip


def _exempted(job: Job, side: Side, concerned: list[Leg]) -> Finding:
    rules, where = job.book.pack.walls, job.place(concerned, face=side)
    if job.low_voltage:
        supply = job.route.supply.upper()
        return job.finding(
            "wall-zone", "low-voltage", "pass", where=where, clause=rules.covering_clause or rules.clause,
            face=side, supply=supply,
        )  # fmt: skip
    coverings = dict.fromkeys(job.book.pack.protections[leg.protection].words for leg in concerned)
    return job.finding(
        "wall-zone", "covered", "pass", where=where, clause=rules.covering_clause or rules.clause,
        face=side, trigger=mm(rules.trigger_depth), covering=listed(list(coverings)),
    )  # fmt: skip


def _zoned(job: Job, side: Side, bare: list[Leg]) -> Iterator[Finding]:
    barred = job.surface.barred(side, job.route.joins)
    whole_width = job.book.reading("width_inside") != "centre-line"
    outside = stretches(bare, barred, whole_width=whole_width)
    if not outside:
        yield job.finding(
            "wall-zone", "inside", "pass", where=job.place(bare, face=side),
            clause=job.book.pack.walls.clause, measure=Measure(_margin(job, bare, side), 0.0), face=side,
        )  # fmt: skip
    elif job.book.reading("rcd_outside_zone") == "yes" and job.book.rcd_counts(job.route.rcd):
        yield _rcd_instead(job, side, outside)
    else:
        yield from (_outside(job, side, stretch) for stretch in outside)


def _margin(job: Job, legs: list[Leg], side: Side) -> float | None:
    """Return how far the cable's edge stays inside, as a length outside of 0 or less [mm]."""
    barred = job.surface.barred(side, job.route.joins)
    if barred.is_empty:
        return None
    whole = Stretch(tuple(legs), *job.spread)
    return min(0.0, max(leg.width / 2 - float(shapely.distance(line, barred)) for leg, line in whole.lines()))


def _worst(job: Job, side: Side, stretch: Stretch) -> float | None:
    """Return how far the cable's far edge lies outside at the worst point of a stretch [mm]."""
    zone, barred = job.surface.zone(side, job.route.joins), job.surface.barred(side, job.route.joins)
    if zone.is_empty:
        return None
    return max(_far_edge(leg, line, zone, barred) for leg, line in stretch.lines())


def _far_edge(leg: Leg, line: LineString, zone: BaseGeometry, barred: BaseGeometry) -> float:
    away = farthest(line, zone)
    return leg.width / 2 + (away if away > 0 else -float(shapely.distance(line, barred)))


def _outside(job: Job, side: Side, stretch: Stretch) -> Finding:
    rules, worst = job.book.pack.walls, _worst(job, side, stretch)
    return job.finding(
        "wall-zone", "outside" if worst is not None else "no-zone", "fail",
        where=job.place(stretch.legs, face=side, marks=(stretch.from_mm, stretch.to_mm)),
        clause=rules.clause, measure=Measure(worst, 0.0), **_facts(job, side, stretch, worst),
    )  # fmt: skip


def _facts(job: Job, side: Side, stretch: Stretch, worst: float | None) -> dict[str, Any]:
    trigger = job.book.pack.walls.trigger_depth
    return {
        "face": side,
        "trigger": mm(trigger),
        "depth": beside(min(leg.depth(side) for leg in stretch.legs), trigger),
        "from_mm": mm(stretch.from_mm, places=0),
        "to_mm": mm(stretch.to_mm, places=0),
        "measured": "" if worst is None else beside(worst, 0.0),
    }


def _rcd_instead(job: Job, side: Side, outside: list[Stretch]) -> Finding:
    legs = tuple(dict.fromkeys(leg for stretch in outside for leg in stretch.legs))
    worst = max((_worst(job, side, stretch) or 0.0 for stretch in outside), default=0.0)
    return job.finding(
        "wall-zone", "rcd-instead", "pass", where=job.place(legs, face=side),
        clause=job.book.pack.walls.clause, measure=Measure(worst, 0.0), face=side,
        measured=beside(worst, 0.0), ma=mm(job.route.rcd.ma) if job.route.rcd else "–",
    )  # fmt: skip


def wall_line(job: Job) -> Iterator[Finding]:
    """Judge per leg whether it runs level or upright, where a pack asks for that."""
    clause = job.book.pack.walls.line_clause
    for leg in job.legs if clause else ():
        shallow = any(job.concerns(leg, side) for side in SIDES)
        slanting = shallow and leg.direction == "slanting"
        outcome = ("slanting" if slanting else "straight") if shallow else "deep"
        status: Status = "fail" if slanting else "pass" if shallow else "not-applicable"
        yield job.finding("wall-line", outcome, status, where=job.place([leg]), clause=clause or "")
