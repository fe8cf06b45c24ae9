"""Where in a joist a hole of a given size may be drilled."""

from collections.abc import Callable
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.rules.pack import Pack
from zonelib.rules.timber_limits import JoistLimits
from zonelib.site.timber import Joist
from zonelib.site.tolerance import TOLERANCE, above

__all__ = ["HoleRegion", "hole_region"]


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
    by_rule = limits.kinds[joist.kind].may_be_cut and not above(joist.depth, limits.deepest)
    return _everywhere(joist) if by_rule else shapely.Polygon()


def _size(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    too_large = above(diameter, limits.hole.diameter * joist.depth)
    return shapely.Polygon() if too_large else _everywhere(joist)


def _position(joist: Joist, limits: JoistLimits, _: float) -> BaseGeometry:
    near, far = limits.hole.start * joist.span, limits.hole.to * joist.span
    return shapely.union(_upright(joist, near, far), _upright(joist, joist.span - far, joist.span - near))


def _centre(joist: Joist, limits: JoistLimits, _: float) -> BaseGeometry:
    middle, off = joist.depth / 2, limits.hole.off_centre
    return shapely.box(0.0, middle - off, joist.span, middle + off)


def _cover(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    """Return the band that keeps the cover; one of no height is kept as a sliver of the tolerance."""
    low = limits.cover + diameter / 2
    if above(low, joist.depth - low):
        return shapely.Polygon()
    high = max(joist.depth - low, low)
    return shapely.box(0.0, low - TOLERANCE, joist.span, high + TOLERANCE)


def _spacing(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    taken = [
        _upright(joist, hole.x - reach, hole.x + reach)
        for hole in joist.holes
        if (reach := limits.hole.spacing * max(hole.diameter, diameter))
    ]
    return _everywhere(joist).difference(shapely.union_all(taken))


def _gap(joist: Joist, limits: JoistLimits, diameter: float) -> BaseGeometry:
    clear = limits.notch.clear_of_holes + diameter / 2
    taken = [
        _upright(joist, notch.x - notch.length / 2 - clear, notch.x + notch.length / 2 + clear)
        for notch in joist.notches
    ]
    return _everywhere(joist).difference(shapely.union_all(taken))


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
    "joist-hole-spacing": _spacing,
    "joist-notch-gap": _gap,
}
