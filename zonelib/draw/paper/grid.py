"""A grid over the face of a wall, to read places off and to draw by."""

from collections.abc import Iterator

import shapely

from zonelib.draw.scene import Scene
from zonelib.draw.shapes import Area, Point

__all__ = ["FINE", "STRONG", "grid_lines", "grid_steps"]

FINE = 2.0
"""Fine lines lie at least so far apart on paper [mm]."""

STRONG = 10
"""Each so-many-eth line is strong."""

STEPS = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0)


def grid_steps(scale: float) -> tuple[float, float]:
    """Return how far apart the fine and the strong lines are [mm of wall].

    >>> grid_steps(20), grid_steps(50)
    ((50.0, 500.0), (100.0, 1000.0))
    """
    fine = next((step for step in STEPS if step / scale >= FINE), STEPS[-1])
    return fine, STRONG * fine


def grid_lines(scene: Scene, step: float) -> Iterator[tuple[Point, Point]]:
    """Yield the lines of a grid from the lower left corner of the wall, within its faces [mm]."""
    faces = [
        shapely.Polygon(one.rings[0]) for one in scene.shapes if isinstance(one, Area) and one.css == "face"
    ]
    whole = shapely.union_all(faces)
    if whole.is_empty:
        return
    left, bottom, right, top = whole.bounds
    upright = [((x, bottom), (x, top)) for x in _steps(left, right, step)]
    level = [((left, y), (right, y)) for y in _steps(bottom, top, step)]
    for line in [*upright, *level]:
        for part in shapely.get_parts(shapely.LineString(line).intersection(whole)):
            if isinstance(part, shapely.LineString) and part.length:
                start, end = part.coords[0], part.coords[-1]
                yield (start[0], start[1]), (end[0], end[1])


def _steps(least: float, most: float, step: float) -> list[float]:
    first = int(least // step) + 1
    return [n * step for n in range(first, int(most // step) + 1) if n * step < most]
