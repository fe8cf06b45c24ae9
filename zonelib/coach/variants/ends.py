"""Where the ends of a marked stretch go: with the bends of its cable, and with what fails on it."""

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from typing import Any

from zonelib.coach.variants.marks import Edges, edges
from zonelib.rules.finding import Finding

__all__ = ["ends_along"]

Points = Sequence[Any]
Told = Sequence[Finding]


def ends_along(points: tuple[Points, Points], failures: tuple[Told, Told], route: str) -> Edges:
    """Return where places along a cable go in another room.

    Parameters
    ----------
    points : tuple of points
        The cable before and after [mm].
    failures : tuple of Finding
        What fails before and after, on any cable.
    route : str
        Which cable it is.
    """
    before, after = (list(_bends(one)) for one in points)
    for rule in dict.fromkeys(one.rule for one in failures[0]):
        old, new = (list(_spans(told, route, rule)) for told in failures)
        if len(old) == len(new):  # else nobody can tell which is which
            before, after = before + old, after + new
    return edges(before, after, strict=False)


def _bends(points: Points) -> Iterator[float]:
    yield from accumulate((math.dist(*ends) for ends in pairwise(points)), initial=0.0)


def _spans(told: Told, route: str, rule: str) -> Iterator[float]:
    """Yield where each failing stretch of a cable begins and ends [mm]."""
    for one in told:
        if (one.subject, one.rule) == (route, rule):
            yield from (at for at in (one.where.from_mm, one.where.to_mm) if at is not None)
