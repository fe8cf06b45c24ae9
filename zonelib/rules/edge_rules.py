"""Framing: how far a cable in a wall keeps from the edges that boards are fixed to."""

from collections.abc import Iterator

from zonelib.rules.finding import Finding, Status
from zonelib.rules.job import SIDES, Job
from zonelib.rules.legs import Leg
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, mm
from zonelib.site.model import Side
from zonelib.site.tolerance import below

__all__ = ["wall_edge"]


def wall_edge(job: Job) -> Iterator[Finding]:
    """Judge per leg how far behind the framing's edges it lies, where the pack decides walls by that alone.

    The framing's edge lies behind the finish. Neither a zone nor an RCD changes the verdict.
    """
    if job.book.pack.walls.policy == "edge-clearance-only":
        yield from (_leg(job, leg) for leg in job.legs)


def _leg(job: Job, leg: Leg) -> Finding:
    side = min(SIDES, key=lambda one: _clearance(job, leg, one))
    clearance, limit = _clearance(job, leg, side), job.book.pack.walls.trigger_depth
    outcome, status = _outcome(job, leg, clearance)
    return job.finding(
        "wall-edge", outcome, status, where=job.place([leg], face=side), clause=job.book.pack.walls.clause,
        measure=Measure(clearance, limit, ">=") if outcome in _MEASURED else None, face=side,
        measured=beside(abs(clearance), limit), limit=mm(limit), supply=job.route.supply.upper(),
        build=job.book.pack.builds[job.surface.wall.build].words,
        covering=job.book.pack.protections[leg.protection].words,
    )  # fmt: skip


_MEASURED = {"before", "near", "clear"}


def _clearance(job: Job, leg: Leg, side: Side) -> float:
    return leg.depth(side) - job.surface.wall.face(side).finish


def _outcome(job: Job, leg: Leg, clearance: float) -> tuple[str, Status]:
    if not job.book.pack.builds[job.surface.wall.build].framed:
        return "unframed", "not-applicable"
    if leg.covered:
        return "covered", "pass"
    if job.low_voltage:
        return "low-voltage", "pass"
    if below(clearance, 0.0):
        return "before", "fail"
    return ("near", "fail") if below(clearance, job.book.pack.walls.trigger_depth) else ("clear", "pass")
