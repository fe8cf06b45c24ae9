"""Zones, RCD and metal parts: the electrician's clauses for a cable in a wall."""

from collections.abc import Iterator
from typing import Any

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.rules.finding import Finding
from zonelib.rules.job import SIDES, Job
from zonelib.rules.legs import Leg
from zonelib.rules.saying import Measure
from zonelib.rules.stretches import Stretch, farthest, stretches
from zonelib.rules.words import beside, mm
from zonelib.site.model import Side

__all__ = ["metal_wall", "wall_rcd", "wall_zone"]


def wall_zone(job: Job) -> Iterator[Finding]:
    """Judge on each face whether the cable's width lies in the zone wherever that face is concerned."""
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
            "wall-zone", "low-voltage", "pass", where=where, clause=rules.covering_clause,
            face=side, supply=supply,
        )  # fmt: skip
    coverings = dict.fromkeys(job.book.pack.protections[leg.protection].words for leg in concerned)
    return job.finding(
        "wall-zone", "covered", "pass", where=where, clause=rules.covering_clause,
        face=side, trigger=mm(rules.trigger_depth), covering=" and ".join(coverings),
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
        measured=beside(worst, 0.0), most=mm(job.book.pack.rcd.most_ma),
    )  # fmt: skip


def wall_rcd(job: Job) -> Iterator[Finding]:
    """Judge whether a route with a shallow bare leg has an RCD that counts, in the zone or not."""
    rules = job.book.pack.walls
    facts: dict[str, Any] = {"trigger": mm(rules.trigger_depth), "most": mm(job.book.pack.rcd.most_ma)}
    if not job.shallow:
        yield job.finding(
            "wall-rcd", "not-needed", "not-applicable",
            where=job.place(job.legs), clause=rules.rcd_clause, **facts,
        )  # fmt: skip
        return
    present = job.book.rcd_counts(job.route.rcd)
    yield job.finding(
        "wall-rcd", "present" if present else "missing", "pass" if present else "fail",
        where=job.place(job.shallow), clause=rules.rcd_clause, measure=_rating(job),
        rcd_state=rcd_state(job), ma=_ma(job), **facts,
    )  # fmt: skip


def _rating(job: Job) -> Measure:
    rcd = job.route.rcd
    return Measure(rcd.ma if rcd else None, job.book.pack.rcd.most_ma, "<=", "mA")


def _ma(job: Job) -> str:
    return mm(job.route.rcd.ma) if job.route.rcd else "–"


def rcd_state(job: Job) -> str:
    """Return what stands in the way of the route's RCD, as a sentence."""
    rcd, rule = job.route.rcd, job.book.pack.rcd
    if rcd is None:
        return "The circuit has no RCD."
    if rcd.at not in rule.at:
        return f"Its RCD sits at the {rcd.at}, and protects nothing behind it."
    if rcd.delayed and not rule.delayed:
        return "Its RCD is time-delayed, and cuts off too late."
    return f"Its RCD is rated {beside(rcd.ma, rule.most_ma)} mA, above {mm(rule.most_ma)} mA."


def metal_wall(job: Job) -> Iterator[Finding]:
    """Judge the route in a wall with metal parts inside, at any depth."""
    build = job.book.pack.builds[job.surface.wall.build]
    bare = [leg for leg in job.legs if not job.exempt(leg)]
    outcome, status = _metal_outcome(job, bare) if build.metal else ("no-metal", "not-applicable")
    yield job.finding(
        "metal-wall", outcome, status,  # type: ignore[arg-type]
        where=job.place(bare if status == "fail" else job.legs), clause=job.book.pack.walls.metal_clause,
        measure=_rating(job) if outcome in {"missing", "present"} else None,
        build=build.words, supply=job.route.supply.upper(), most=mm(job.book.pack.rcd.most_ma),
        ma=_ma(job), rcd_state=rcd_state(job),
    )  # fmt: skip


def _metal_outcome(job: Job, bare: list[Leg]) -> tuple[str, str]:
    if job.low_voltage:
        return "low-voltage", "pass"
    if not bare:
        return "covered", "pass"
    present = job.book.rcd_counts(job.route.rcd)
    return ("present", "pass") if present else ("missing", "fail")
