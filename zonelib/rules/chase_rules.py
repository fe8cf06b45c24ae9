"""Chases in masonry: how deep, and in which direction."""

from collections.abc import Iterator

from zonelib.rules.finding import Finding, Status
from zonelib.rules.job import SIDES, Job
from zonelib.rules.legs import Leg
from zonelib.rules.pack import ChaseRule
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, mm
from zonelib.site.model import Side, Wall
from zonelib.site.tolerance import TOLERANCE, above

__all__ = ["chase_depth", "chase_line"]

_PARTS = {3: "third", 4: "quarter", 5: "fifth", 6: "sixth"}


def chase_depth(job: Job) -> Iterator[Finding]:
    """Judge per leg how deep the leaf is cut, whatever the covering or the supply."""
    for leg, rule, side, cut in _cuts(job):
        if rule is None:
            yield _aside(job, leg, "chase-depth", "not-masonry")
        elif cut <= TOLERANCE:
            yield _aside(job, leg, "chase-depth", "no-cut", rule)
        elif leg.direction == "slanting":
            yield _aside(job, leg, "chase-depth", "slanting", rule)
        else:
            yield _depth(job, leg, rule, side, cut)


def chase_line(job: Job) -> Iterator[Finding]:
    """Judge per leg whether its chase is level or upright."""
    for leg, rule, side, cut in _cuts(job):
        if rule is None:
            yield _aside(job, leg, "chase-line", "not-masonry")
        elif cut <= TOLERANCE:
            yield _aside(job, leg, "chase-line", "no-cut", rule)
        else:
            slanting = leg.direction == "slanting"
            yield job.finding(
                "chase-line", "slanting" if slanting else "straight", "fail" if slanting else "pass",
                where=job.place([leg], face=side), clause=rule.clause,
                face=side, direction=_DIRECTION_WORDS.get(leg.direction, ""), measured=mm(cut),
            )  # fmt: skip


_DIRECTION_WORDS = {"horizontal": "level", "vertical": "upright"}


def _cuts(job: Job) -> Iterator[tuple[Leg, ChaseRule | None, Side, float]]:
    """Yield each leg with the rule for it, the face its chase is cut from, and how deep [mm]."""
    wall, rule = job.surface.wall, job.book.pack.chases
    chased = job.book.pack.builds[wall.build].chased
    for leg in job.legs:
        side = leg.shallower_side or _thinner_finish(wall)
        yield leg, rule if chased else None, side, leg.depth(side) - wall.face(side).finish + leg.thickness


def _thinner_finish(wall: Wall) -> Side:
    return min(SIDES, key=lambda side: wall.face(side).finish)


def _depth(job: Job, leg: Leg, rule: ChaseRule, side: Side, cut: float) -> Finding:
    divisor = rule.horizontal if leg.direction == "horizontal" else rule.vertical
    leaf = job.surface.wall.chased_leaf
    limit = leaf / divisor
    status: Status = "fail" if above(cut, limit) else "pass"
    return job.finding(
        "chase-depth", "deep" if status == "fail" else "within", status, where=job.place([leg], face=side),
        clause=rule.clause, measure=Measure(cut, limit), face=side, direction=leg.direction,
        measured=beside(cut, limit), limit=mm(limit), leaf=mm(leaf),
        part=_PARTS.get(int(divisor), f"{divisor:g}th"),
    )  # fmt: skip


def _aside(job: Job, leg: Leg, rule: str, outcome: str, chase: ChaseRule | None = None) -> Finding:
    build = job.book.pack.builds[job.surface.wall.build].words
    clause = chase.clause if chase else ""
    return job.finding(rule, outcome, "not-applicable", where=job.place([leg]), clause=clause, build=build)
