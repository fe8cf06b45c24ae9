"""Areas and lines of a wall, in the front view [mm]."""

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from zonelib.site.model import Accessory, Opening, Wall

__all__ = [
    "accessory_box",
    "face_outline",
    "height_at",
    "opening_box",
    "openings_area",
    "solid_area",
    "top_line",
]


def face_outline(wall: Wall, *, grown: float = 0.0) -> Polygon:
    """Return the outline of a wall's face, grown on all sides where asked [mm]."""
    (left, first), (right, last) = wall.profile[0], wall.profile[-1]
    raised = [(x, y + grown) for x, y in wall.profile]
    top = [(left - grown, first + grown), *raised, (right + grown, last + grown)] if grown else raised
    return Polygon([(right + grown, -grown), (left - grown, -grown), *top])


def top_line(wall: Wall) -> LineString:
    """Return the line of a wall's top."""
    return LineString(wall.profile)


def height_at(wall: Wall, x: float) -> float:
    """Return the height of a wall's top at an x; beyond its ends, at the end [mm]."""
    xs, ys = zip(*wall.profile, strict=True)
    return float(np.interp(x, xs, ys))


def opening_box(opening: Opening) -> Polygon:
    """Return the rectangle of an opening."""
    return shapely.box(*opening.bounds)


def accessory_box(accessory: Accessory) -> Polygon:
    """Return the rectangle of an accessory."""
    return shapely.box(*accessory.bounds)


def openings_area(wall: Wall, *, grown: float = 0.0) -> BaseGeometry:
    """Return the area of all openings of a wall, each grown on all sides where asked [mm]."""
    bounds = (opening.bounds for opening in wall.openings)
    boxes = [shapely.box(x0 - grown, y0 - grown, x1 + grown, y1 + grown) for x0, y0, x1, y1 in bounds]
    return boxes[0] if len(boxes) == 1 else shapely.union_all(boxes)


def solid_area(wall: Wall) -> BaseGeometry:
    """Return the face without its openings."""
    outline = face_outline(wall)
    return outline.difference(openings_area(wall)) if wall.openings else outline
