"""Where in a joist a hole of a given size may be drilled."""

from collections.abc import Callable
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.rules.joist_bench import notch_box
from zonelib.rules.pack import Pack
from zonelib.rules.timber_limits import JoistLimits
from zonelib.site.timber import Hole, Joist, Notch
from zonelib.site.tolerance import TOLERANCE, above

__all__ = ["HoleRegion", "hole_region"]

ARC_STEPS = 64
"""Steps of a quarter circle round what is cut already, where the shortest distance counts."""


@dataclass(frozen=True)
class HoleRegion:
    """Where the centre of a hole may lie.

    Attributes
    ----------
    area : Polygon or MultiPolygon
        In the joist's elevation: x along the span from one support, y above its bottom [mm].
    emptied_by : str
        The rule after which nothing was left, or "" where something is.
    """

    area: BaseGeometry
    emptied_by: str


def hole_region(joist: Joist, pack: Pack, *, diameter: float, covered: bool = False) -> HoleRegion:
    """Return where a hole may be drilled beside what is cut already.

    Parameters
    ----------
    joist : Joist
        The joist with its holes and notches.
    pack : Pack
        The country's limits.
    diameter : float
        Of the new hole [mm].
    covered : bool
        Whether the cable in it has a covering that counts, so that no cover is asked for.

    Raises
    ------
    ValueError
        If the pack has no limits for joists.
    """
    limits = pack.joists
    if limits is None:
        raise ValueError(f"the pack {pack.id} states no limits for joists; it needs a table [joists]")
    area: BaseGeometry = shapely.box(0.0, 0.0, joist.span, joist.depth)
    for rule, allowed in _STEPS.items():
        if rule == "joist-cover" and covered:
            continue
        area = area.intersection(allowed(joist, limits, diameter))
        if area.is_empty:
            return HoleRegion(area, rule)
    return HoleRegion(area, "")


def _kind(joist: Joist, limits: JoistLimits, _: float) -> BaseGeometry:
    too_deep = limits.deepest is not None and above(joist.depth, limits.deepest)
    by_rule = limits.kinds[joist.kind].may_be_cut and not too_deep
    return _everywhere(joist) if by_rule else shapely.Polygon()


def _size(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    too_large = above(diameter, limits.hole.diameter * joist.depth)
    return shapely.Polygon() if too_large else _everywhere(joist)


def _position(joist: Joist, limits: JoistLimits, _: float) -> BaseGeometry:
    near, far = (limits.hole.start or 0.0) * joist.span, (limits.hole.to or 1.0) * joist.span
    return shapely.union(_upright(joist, near, far), _upright(joist, joist.span - far, joist.span - near))


def _centre(joist: Joist, limits: JoistLimits, _: float) -> BaseGeometry:
    middle, off = joist.depth / 2, limits.hole.off_centre
    return _everywhere(joist) if off is None else shapely.box(0.0, middle - off, joist.span, middle + off)


def _cover(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    return _level(joist, limits.cover + diameter / 2)


def _edge(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    edge = limits.hole.edge
    return _everywhere(joist) if edge is None else _level(joist, edge + diameter / 2)


def _level(joist: Joist, low: float) -> BaseGeometry:
    """Return the band that far from top and bottom; one of no height is kept as a sliver of the tolerance."""
    if above(low, joist.depth - low):
        return shapely.Polygon()
    high = max(joist.depth - low, low)
    return shapely.box(0.0, low - TOLERANCE, joist.span, high + TOLERANCE)


def _spacing(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    return _everywhere(joist).difference(
        shapely.union_all([_round_hole(joist, limits, hole, diameter) for hole in joist.holes])
    )


def _round_hole(joist: Joist, limits: JoistLimits, hole: Hole, diameter: float) -> BaseGeometry:
    """Return where a new hole's centre would lie too close to a hole."""
    times, clear = limits.hole.spacing, limits.hole.clear_of_holes
    if times is None and clear is None:
        return shapely.Polygon()
    if times is not None:
        reach = times * max(hole.diameter, diameter)
    else:
        reach = (clear or 0.0) + (hole.diameter + diameter) / 2
        if limits.gaps == "shortest":
            return shapely.Point(hole.x, hole.y).buffer(reach, quad_segs=ARC_STEPS)
    return _upright(joist, hole.x - reach, hole.x + reach)


def _gap(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    clear = limits.notch.clear_of_holes
    if clear is None:
        return _everywhere(joist)
    reach = clear + diameter / 2
    taken = [_round_notch(joist, limits, notch, reach) for notch in joist.notches]
    return _everywhere(joist).difference(shapely.union_all(taken))


def _round_notch(joist: Joist, limits: JoistLimits, notch: Notch, reach: float) -> BaseGeometry:
    if limits.gaps == "shortest":
        return notch_box(joist, notch).buffer(reach, quad_segs=ARC_STEPS)
    return _upright(joist, notch.x - notch.length / 2 - reach, notch.x + notch.length / 2 + reach)


def _everywhere(joist: Joist) -> BaseGeometry:
    return _upright(joist, 0.0, joist.span)


def _upright(joist: Joist, left: float, right: float) -> BaseGeometry:
    return shapely.box(left, 0.0, right, joist.depth)


_STEPS: dict[str, Callable[[Joist, JoistLimits, float], BaseGeometry]] = {
    "joist-kind": _kind,
    "joist-hole-size": _size,
    "joist-hole-position": _position,
    "joist-hole-centre": _centre,
    "joist-cover": _cover,
    "joist-hole-edge": _edge,
    "joist-hole-spacing": _spacing,
    "joist-notch-gap": _gap,
}
