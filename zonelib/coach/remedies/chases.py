"""How deep a chase a leaf allows, and new legs laid no deeper than that."""

import math
from itertools import pairwise

from zonelib.coach.remedies.edits import straight
from zonelib.coach.remedies.task import Task
from zonelib.site.model import Route
from zonelib.site.tolerance import above
from zonelib.site.wall import Wall

__all__ = ["chase_limit", "deepest_bed", "laid_flat", "thickness_in"]


def chase_limit(task: Task, wall: Wall, *, level: bool) -> float | None:
    """Return the deepest chase in a wall, or None where none is cut or none is limited [mm]."""
    rule = task.pack.chases
    if rule is None or not task.pack.builds[wall.build].chased:
        return None
    return wall.chased_leaf / (rule.horizontal if level else rule.vertical)


def thickness_in(task: Task, protection: str) -> float:
    """Return what the cable takes of a wall's thickness in a covering [mm]."""
    usual = task.pack.protections[protection].outer
    return task.route.cable.thickness if usual is None else task.route.outer or usual


def deepest_bed(task: Task, wall: Wall, *, level: bool, protection: str) -> float | None:
    """Return the greatest depth below the route's face that the chase allows, in whole mm, or None."""
    limit = chase_limit(task, wall, level=level)
    if limit is None:
        return None
    return math.floor(limit + wall.face(task.route.depth_from).finish - thickness_in(task, protection))


def laid_flat(task: Task, piece: Route) -> Route:
    """Return new legs, each no deeper than its chase may be."""
    depths = [
        _flat(task, depth, straight(*ends) == "level", protection)
        for ends, depth, protection in zip(pairwise(piece.points), piece.depth, piece.protection, strict=True)
    ]
    return piece.model_copy(update={"depth": tuple(depths)})


def _flat(task: Task, depth: float, level: bool, protection: str) -> float:  # noqa: FBT001 one of many columns
    most = deepest_bed(task, task.wall, level=level, protection=protection)
    if most is None or most < 0 or not above(depth, most) or depth > task.wall.thickness / 2:
        return depth
    return float(most)
