"""Areas as a trainee draws them."""

from collections.abc import Iterator
from typing import Annotated, Any

import shapely
from pydantic import Field
from shapely.geometry.base import BaseGeometry

from zonelib.site.fields import Piece, Point

__all__ = ["ZonesAnswer", "canonical", "drawn_area", "is_empty"]

MOST_AREAS = 60
MOST_POINTS = 40
"""More than any real face needs."""

RECTANGLE = 2
GRID = 0.01
"""Corners are taken to this [mm]."""

Ring = Annotated[tuple[Point, ...], Field(max_length=MOST_POINTS)]


class ZonesAnswer(Piece):
    """Drawn areas: two points are opposite corners of a rectangle, more are a polygon [mm, front view]."""

    areas: Annotated[tuple[Ring, ...], Field(max_length=MOST_AREAS)] = ()


def drawn_area(answer: ZonesAnswer) -> BaseGeometry:
    """Return all that is drawn as one area; where areas overlap counts once [mm]."""
    return shapely.union_all(list(_areas(answer)), grid_size=GRID)


def _areas(answer: ZonesAnswer) -> Iterator[BaseGeometry]:
    for ring in answer.areas:
        points = tuple(dict.fromkeys((round(x, 2), round(y, 2)) for x, y in ring))
        if len(points) == RECTANGLE:
            (x0, y0), (x1, y1) = points
            yield shapely.box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
        elif len(points) > RECTANGLE:
            yield from _polygons(shapely.make_valid(shapely.Polygon(points)))


def _polygons(shape: BaseGeometry) -> Iterator[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if isinstance(part, shapely.Polygon) and part.area > 0:
            yield part


def is_empty(answer: ZonesAnswer) -> bool:
    """Tell whether nothing of any size is drawn."""
    return not any(area.area > GRID for area in _areas(answer))


def canonical(answer: ZonesAnswer) -> Any:
    """Return the drawn area as text, however it was put together."""
    whole = shapely.set_precision(drawn_area(answer), GRID)
    return shapely.to_wkt(shapely.normalize(whole.simplify(0)), rounding_precision=2)
