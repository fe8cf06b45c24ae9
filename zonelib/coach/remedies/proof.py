"""The proof of a remedy: applied to the case and judged again, it mends its finding and breaks nothing."""

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from zonelib.coach.remedies.task import Task
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.rules.journey import Site
from zonelib.rules.legs import Leg
from zonelib.site.model import Case
from zonelib.site.tolerance import above, below

__all__ = ["mends"]

OF_THE_WHOLE = {"wall-rcd", "metal-wall", "route-joins"}
"""Rules that judge a route as a whole: they fail once, wherever its legs lie."""

SAME = 0.01
"""How far a stretch that still fails may lie from where it failed before [mm]."""


def mends(task: Task, case: Case) -> bool:
    """Tell whether a changed case has no failure left but such as were there before, the finding aside."""
    if case == task.case:
        return False
    after = Site(case, task.book)
    return all(
        any(_is(task, old, one, after) for old in task.others) for one in judge(case, task.pack).failures
    )


def _is(task: Task, old: Finding, new: Finding, after: Site) -> bool:
    """Tell whether a failure is one that was there before, and no worse."""
    if _name(old) != _name(new):
        return False
    before, now = _trace(task.site, old), _trace(after, new)
    if before.is_empty or now.is_empty:
        return not _worse(old, new)
    return bool(before.buffer(SAME).covers(now))


def _name(one: Finding) -> tuple[str | None, ...]:
    where = one.where
    return one.rule, one.subject, where.wall, where.face, where.joist, where.stud, where.other


def _worse(old: Finding, new: Finding) -> bool:
    if old.measured is None or new.measured is None:
        return False
    return (above if new.operator == "<=" else below)(new.measured, old.measured)


def _trace(site: Site, one: Finding) -> BaseGeometry:
    """Return the part of a route that a finding covers, in its wall's view; nothing for the whole [mm]."""
    route = next((route for route in site.case.routes if route.id == one.subject), None)
    if route is None or one.rule in OF_THE_WHOLE:
        return LineString()
    low, high = one.where.from_mm, one.where.to_mm
    jobs = [job for job in site.journey(route).jobs if job.wall_id == one.where.wall]
    legs = [leg for job in jobs for leg in job.legs if leg.number in one.where.legs]
    return shapely.union_all([_part(leg, low or 0.0, high or 0.0) for leg in legs])


def _part(leg: Leg, low: float, high: float) -> LineString:
    start, end = max(low - leg.from_mm, 0.0), min(high, leg.to_mm) - leg.from_mm
    line = shapely.LineString([leg.start, leg.end])
    parts = [line.interpolate(at) for at in (start, max(start, end))]
    return LineString(parts) if parts[0] != parts[1] else LineString()
