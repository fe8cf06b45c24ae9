"""RCD and metal parts: what must cut the supply before a cable in a wall hurts anyone."""

from collections.abc import Iterator
from typing import Any

from zonelib.rules.finding import Finding, Status
from zonelib.rules.job import Job, Stage
from zonelib.rules.legs import Leg
from zonelib.rules.pack import RcdRule
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, listed, mm
from zonelib.site.model import Rcd
from zonelib.site.tolerance import above

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
    "no-leg": "not-applicable",
}


def _rating(job: Stage, rule: RcdRule) -> Measure:
    """Return the rating beside its limit; no number where one that is low enough fails all the same."""
    rcd = job.route.rcd
    if rcd is not None and not above(rcd.ma, rule.most_ma) and not job.book.rcd_counts(rcd):
        return Measure(unit="")
    return Measure(rcd.ma if rcd else None, rule.most_ma, "<=", "mA")


def _facts(job: Stage, rule: RcdRule) -> dict[str, Any]:
    rcd, flaws = job.route.rcd, list(_flaws(job.route.rcd, rule))
    short = listed([words for words, _ in flaws if words])
    return {
        "rcd_state": " ".join(sentence for _, sentence in flaws),
        "flaw": f": {short}" if short else "",
        "most": mm(rule.most_ma),
        "ma": mm(rcd.ma) if rcd else "–",
    }


def _flaws(rcd: Rcd | None, rule: RcdRule) -> Iterator[tuple[str, str]]:
    """Yield what stands in the way of a route's RCD, each in a few words and as a sentence.

    No RCD, and one rated too high, need no words beside the measured rating.
    """
    if rcd is None:
        yield "", "The circuit has no RCD."
        return
    if rcd.at not in rule.at:
        yield f"it sits at the {rcd.at}", f"Its RCD sits at the {rcd.at}, and protects nothing behind it."
    if rcd.delayed and not rule.delayed:
        yield "it is time-delayed", "Its RCD is time-delayed, and cuts off too late."
    if above(rcd.ma, rule.most_ma):
        yield "", f"Its RCD is rated {beside(rcd.ma, rule.most_ma)} mA, above {mm(rule.most_ma)} mA."


def metal_wall(job: Job) -> Iterator[Finding]:
    """Judge the route in a wall with metal parts inside, at any depth."""
    rules, rule = job.book.pack.walls, job.book.pack.rcd
    if rules.metal_clause is None or rule is None:
        return
    build = job.book.pack.builds[job.surface.wall.build]
    bare = [leg for leg in job.legs if not job.exempt(leg)]
    outcome = ("no-leg" if not job.legs else _metal_outcome(job, bare)) if build.metal else "no-metal"
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
