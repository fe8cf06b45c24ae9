"""What any route must do, clause or not: reach what it joins, lie on its wall, fit into it."""

import math
from collections.abc import Iterator
from itertools import pairwise

import shapely
from shapely import MultiLineString, Point
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.rules.finding import Finding, Place
from zonelib.rules.job import SIDES, Job
from zonelib.rules.journey import Journey
from zonelib.rules.legs import Leg
from zonelib.rules.saying import Measure
from zonelib.rules.stretches import line_of, parts_within
from zonelib.rules.words import beside, listed, mm
from zonelib.site.geometry import accessory_box
from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE, above, below

__all__ = ["depth_in_wall", "route_in_void", "route_joins", "route_on_wall"]


def route_joins(journey: Journey) -> Iterator[Finding]:
    """Judge whether the centre line touches every accessory it joins on its wall, or in its room."""
    gaps = _gaps(journey)
    where = journey.place(journey.legs)
    if not gaps:
        yield journey.finding("route-joins", "none", "not-applicable", where=where)
        return
    missed = [name for name, gap in gaps.items() if above(gap, 0.0)]
    worst = max(gaps.values())
    yield journey.finding(
        "route-joins", "apart" if missed else "touching", "fail" if missed else "pass", where=where,
        measure=Measure(worst, 0.0), measured=beside(worst, 0.0),
        missed=listed(missed), joins=listed(list(gaps)),
    )  # fmt: skip


def _gaps(journey: Journey) -> dict[str, float]:
    """Return how far the route stays from each accessory it joins, all walls laid in a row [mm]."""
    line, gaps = _line(journey.route), dict[str, float]()
    for accessory, start in journey.joined:
        gap = float(shapely.distance(line, translate(accessory_box(accessory), start)))
        gaps[accessory.id] = min(gap, gaps.get(accessory.id, gap))
    return gaps


def _line(route: Route) -> BaseGeometry:
    legs = zip(pairwise(route.points), route.via, strict=True)
    lines = [ends for ends, via in legs if via == "wall" and math.dist(*ends) > TOLERANCE]
    return MultiLineString(lines) if lines else Point(route.points[0])


def route_in_void(journey: Journey) -> Iterator[Finding]:
    """Judge for each leg through a void whether it leaves and comes back at the wall's top or foot."""
    route = journey.route
    for number, (ends, via) in enumerate(zip(pairwise(route.points), route.via, strict=True), start=1):
        if via != "wall":
            gap = max(_from_edge(journey, point, via) for point in ends)
            apart = above(gap, 0.0)
            yield journey.finding(
                "route-in-void", "apart" if apart else "at-edge", "fail" if apart else "pass",
                where=Place(journey.wall_id, legs=(number,), room=route.room), measure=Measure(gap, 0.0),
                measured=beside(gap, 0.0), void=via.replace("-", " "), edge=_EDGES[via],
            )  # fmt: skip


_EDGES = {"ceiling-void": "top", "floor-void": "foot"}


def _from_edge(journey: Journey, point: tuple[float, float], via: str) -> float:
    """Return how far a point is from the top or foot of its wall [mm]."""
    x, y = point
    return abs(y) if via == "floor-void" else abs(y - journey.ceiling(x))


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
