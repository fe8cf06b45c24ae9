"""What any route must do, clause or not: reach what it joins, lie on its wall, fit into it."""

from collections.abc import Iterator

import shapely
from shapely import MultiLineString, Point

from zonelib.rules.finding import Finding
from zonelib.rules.job import SIDES, Job
from zonelib.rules.legs import Leg
from zonelib.rules.saying import Measure
from zonelib.rules.stretches import line_of, parts_within
from zonelib.rules.words import beside, listed, mm
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Accessory
from zonelib.site.tolerance import TOLERANCE, above, below

__all__ = ["depth_in_wall", "route_joins", "route_on_wall"]


def route_joins(job: Job) -> Iterator[Finding]:
    """Judge whether the centre line touches every accessory it joins on this wall."""
    joined = [one for one in job.surface.wall.accessories if one.id in job.route.joins]
    where = job.place(job.legs)
    if not joined:
        yield job.finding("route-joins", "none", "not-applicable", where=where)
        return
    gaps = {accessory.id: _gap(job, accessory) for accessory in joined}
    missed = [name for name, gap in gaps.items() if above(gap, 0.0)]
    worst = max(gaps.values())
    yield job.finding(
        "route-joins", "apart" if missed else "touching", "fail" if missed else "pass", where=where,
        measure=Measure(worst, 0.0), measured=beside(worst, 0.0),
        missed=listed(missed), joins=listed(list(gaps)),
    )  # fmt: skip


def _gap(job: Job, accessory: Accessory) -> float:
    lines = MultiLineString([line_of(leg) for leg in job.legs]) if job.legs else Point(job.route.points[0])
    return float(shapely.distance(lines, accessory_box(accessory)))


def route_on_wall(job: Job) -> Iterator[Finding]:
    """Judge per leg whether it lies on the wall and crosses no opening's interior."""
    for leg in job.legs:
        line = line_of(leg)
        off = 0.0 if job.surface.outline.covers(line) else line.difference(job.surface.outline).length
        if off > TOLERANCE:
            yield _on_wall(job, leg, "off", measured=off)
        elif job.surface.wall.openings and line.intersects(job.surface.openings):
            yield _through_opening(job, leg)
        else:
            yield _on_wall(job, leg, "on")


def _through_opening(job: Job, leg: Leg) -> Finding:
    parts = list(parts_within(leg, job.surface.openings))
    length = sum(end - start for start, end in parts)
    if not parts:
        return _on_wall(job, leg, "on")
    crossed = [one for one in job.surface.wall.openings if line_of(leg).intersects(shapely.box(*one.bounds))]
    names = listed([f"{one.kind} {one.id}" for one in crossed])
    return _on_wall(job, leg, "opening", measured=length, opening=names, marks=(parts[0][0], parts[-1][1]))


def _on_wall(
    job: Job, leg: Leg, outcome: str, *, measured: float = 0.0, opening: str = "",
    marks: tuple[float, float] | None = None,
) -> Finding:  # fmt: skip
    return job.finding(
        "route-on-wall", outcome, "pass" if outcome == "on" else "fail", where=job.place([leg], marks=marks),
        measure=Measure(measured, 0.0), measured=beside(measured, 0.0), opening=opening,
    )  # fmt: skip


def depth_in_wall(job: Job) -> Iterator[Finding]:
    """Judge per leg whether neither depth is negative."""
    for leg in job.legs:
        side = min(SIDES, key=leg.depth)
        depth = leg.depth(side)
        out = below(depth, 0.0)
        yield job.finding(
            "depth-in-wall", "out" if out else "in", "fail" if out else "pass",
            where=job.place([leg], face=side), measure=Measure(depth, 0.0, ">="),
            face=side, out=beside(-depth, 0.0), depth=beside(depth, 0.0), thickness=mm(leg.thickness),
            wall_thickness=mm(job.surface.wall.thickness),
        )  # fmt: skip
