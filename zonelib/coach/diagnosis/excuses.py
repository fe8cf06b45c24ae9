"""Failures of an answered route that a misconception passes over."""

from collections.abc import Callable
from itertools import pairwise

from zonelib.rules.finding import Finding
from zonelib.site.model import Case, Route
from zonelib.site.tolerance import TOLERANCE

__all__ = ["excused"]

ZONES = {"wall-zone", "wall-line", "chase-line"}


def excused(names: frozenset[str], finding: Finding, case: Case | None) -> bool:
    """Tell whether a failure is passed over by one of the named excuses."""
    routes = [one for one in case.routes if one.id == finding.subject] if case else []
    return any(EXCUSES[name](finding, route, case) for name in names for route in routes if case)


def _slanting(finding: Finding, route: Route, _: Case) -> bool:
    legs = list(pairwise(route.points))
    ends = [legs[number - 1] for number in finding.where.legs]
    slants = any(
        abs(a[0] - b[0]) > TOLERANCE and abs(a[1] - b[1]) > TOLERANCE for a, b in ends
    )  # fmt: skip
    return finding.rule in ZONES and slants


def _level_round_corner(finding: Finding, route: Route, case: Case) -> bool:
    """Tell whether all of a stretch runs level with an accessory on another wall of its room."""
    if finding.rule != "wall-zone" or route.room is None:
        return False
    joined = [one for wall in case.walls for one in wall.accessories if one.id in route.joins]
    legs = list(pairwise(route.points))
    half = route.cable.width / 2
    return all(
        abs(a[1] - b[1]) <= TOLERANCE and any(abs(a[1] - one.y) + half <= one.height / 2 for one in joined)
        for a, b in (legs[number - 1] for number in finding.where.legs)
    )


EXCUSES: dict[str, Callable[[Finding, Route, Case], bool]] = {
    "slanting": _slanting,
    "level_round_corner": _level_round_corner,
}
