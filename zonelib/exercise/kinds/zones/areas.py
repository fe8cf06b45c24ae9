"""Areas without lines, points and slivers."""

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

__all__ = ["LEAST", "areas_of", "solid"]

LEAST = 1.0
"""What is smaller is no area [mm²]."""

THIN = 1.0
"""What is thinner than twice this is an edge, not an area [mm]."""


def areas_of(shape: BaseGeometry) -> BaseGeometry:
    """Return a shape without the lines and points that remain where edges only touch."""
    return shapely.union_all(list(_parts(shape)))


def solid(shape: BaseGeometry) -> BaseGeometry:
    """Return an area without the slivers that rounding leaves along its edges."""
    return shapely.union_all([part for part in _parts(shape) if not part.buffer(-THIN).is_empty])


def _parts(shape: BaseGeometry) -> Iterator[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if isinstance(part, shapely.Polygon):
            yield part
        elif part.geom_type in {"MultiPolygon", "GeometryCollection"}:
            yield from _parts(part)
