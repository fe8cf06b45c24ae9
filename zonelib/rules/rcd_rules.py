"""RCD and metal parts: what must cut the supply before a cable in a wall hurts anyone."""

from collections.abc import Iterator
from typing import Any

from zonelib.rules.finding import Finding, Status
from zonelib.rules.job import Job, Stage
from zonelib.rules.legs import Leg
from zonelib.rules.pack import RcdRule
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, mm
from zonelib.site.model import Rcd

__all__ = ["metal_wall", "wall_rcd"]


def wall_rcd(job: Stage) -> Iterator[Finding]:
    """Judge whether a route with a shallow bare leg has an RCD that counts, in the zone or not."""
    rules, rule = job.book.pack.walls, job.book.pack.rcd
    if rules.rcd_clause is None or rule is None:
        return
    needed, present = bool(job.shallow), job.book.rcd_counts(job.route.rcd)
    outcome = ("present" if present else "missing") if needed else "not-needed"
    yield job.finding(
        "wall-rcd", outcome, _STATUS[outcome], where=job.place(job.shallow if needed else job.legs),
        clause=rules.rcd_clause, measure=_rating(job, rule) if needed else None,
        trigger=mm(rules.trigger_depth), **_facts(job, rule),
    )  # fmt: skip


_STATUS: dict[str, Status] = {
    "present": "pass",
    "missing": "fail",
    "not-needed": "not-applicable",
    "covered": "pass",
    "low-voltage": "pass",
    "no-metal": "not-applicable",
}


def _rating(job: Stage, rule: RcdRule) -> Measure:
    return Measure(job.route.rcd.ma if job.route.rcd else None, rule.most_ma, "<=", "mA")


def _facts(job: Stage, rule: RcdRule) -> dict[str, Any]:
    rcd = job.route.rcd
    state = rcd_state(rcd, rule)
    return {"rcd_state": state, "most": mm(rule.most_ma), "ma": mm(rcd.ma) if rcd else "–"}


def rcd_state(rcd: Rcd | None, rule: RcdRule) -> str:
    """Return what stands in the way of a route's RCD, as a sentence."""
    if rcd is None:
        return "The circuit has no RCD."
    if rcd.at not in rule.at:
        return f"Its RCD sits at the {rcd.at}, and protects nothing behind it."
    if rcd.delayed and not rule.delayed:
        return "Its RCD is time-delayed, and cuts off too late."
    return f"Its RCD is rated {beside(rcd.ma, rule.most_ma)} mA, above {mm(rule.most_ma)} mA."


def metal_wall(job: Job) -> Iterator[Finding]:
    """Judge the route in a wall with metal parts inside, at any depth."""
    rules, rule = job.book.pack.walls, job.book.pack.rcd
    if rules.metal_clause is None or rule is None:
        return
    build = job.book.pack.builds[job.surface.wall.build]
    bare = [leg for leg in job.legs if not job.exempt(leg)]
    outcome = _metal_outcome(job, bare) if build.metal else "no-metal"
    yield job.finding(
        "metal-wall", outcome, _STATUS[outcome], where=job.place(bare if outcome == "missing" else job.legs),
        clause=rules.metal_clause, measure=_rating(job, rule) if outcome in {"missing", "present"} else None,
        build=build.words, supply=job.route.supply.upper(), **_facts(job, rule),
    )  # fmt: skip


def _metal_outcome(job: Job, bare: list[Leg]) -> str:
    if job.low_voltage:
        return "low-voltage"
    if not bare:
        return "covered"
    return "present" if job.book.rcd_counts(job.route.rcd) else "missing"
