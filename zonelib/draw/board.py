"""What a scene is built on: shapes laid in layers, the side shown, and the labels' placer."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field, replace

import shapely
from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from zonelib.draw.placing import Placer, Spot, nearest
from zonelib.draw.scene import Drawn
from zonelib.draw.shapes import Area, Box, Line, Point, Text
from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Accessory, Side, Wall
from zonelib.site.row import Row

__all__ = ["LAYERS", "Board"]

LAYERS = ("ground", "zones", "dots", "edges", "things", "cables", "marks", "labels", "margin")
"""What is drawn first lies lowest."""


@dataclass
class Board:
    """One face while its scene is being built; all places are in the drawing, the rear mirrored.

    Attributes
    ----------
    wall : Wall
        The wall.
    side : {"front", "rear"}
        The face shown.
    book : Rulebook
        Pack and readings.
    show : collection of str
        Parts to draw.
    em, scale : float
        Size of text, and of one CSS pixel [mm].
    reach : Box
        Wall and routes [mm].
    placer : Placer
        Keeps labels apart.
    zoned : geometry
        Where zones are filled [mm].
    """

    wall: Wall
    side: Side
    book: Rulebook
    show: Collection[str]
    em: float
    scale: float
    reach: Box
    placer: Placer
    zoned: BaseGeometry = field(default_factory=Polygon)
    notes: list[str] = field(default_factory=list)
    layers: dict[str, list[Drawn]] = field(default_factory=lambda: {layer: [] for layer in LAYERS})

    @property
    def height(self) -> float:
        """Greatest height of the wall [mm]."""
        return max(y for _, y in self.wall.profile)

    def at(self, x: float) -> float:
        """Return where an x of the front view lies in the drawing [mm]."""
        return x if self.side == "front" else self.wall.length - x

    def point(self, point: Point) -> Point:
        """Return where a point of the front view lies in the drawing [mm]."""
        return self.at(point[0]), point[1]

    def box(self, bounds: tuple[float, float, float, float]) -> Box:
        """Return where a rectangle of the front view lies in the drawing [mm]."""
        left, bottom, right, top = bounds
        ends = sorted((self.at(left), self.at(right)))
        return Box(ends[0], bottom, ends[1], top)

    def area(self, shape: BaseGeometry) -> BaseGeometry:
        """Return an area of the front view as it lies in the drawing [mm]."""
        if self.side == "front":
            return shape
        return affine_transform(shape, [-1, 0, 0, 1, self.wall.length, 0])

    @property
    def accessories(self) -> tuple[Accessory, ...]:
        """The wall's accessories, those out of sight only where they are to be shown."""
        return tuple(one for one in self.wall.accessories if one.visible or self.shows("hidden"))

    @property
    def faces(self) -> tuple[tuple[Wall, float], ...]:
        """The walls shown, each with where it begins: one, or those of a room in a row [mm]."""
        return tuple(self.wall.placed) if isinstance(self.wall, Row) else ((self.wall, 0.0),)

    def shows(self, part: str) -> bool:
        """Tell whether a part is to be drawn."""
        return part in self.show

    def add(self, layer: str, *shapes: Drawn) -> None:
        """Lay shapes on a layer."""
        self.layers[layer].extend(shapes)

    def fill(
        self, layer: str, css: str, shape: BaseGeometry, *, part: str = "", name: str = "", alt: str = ""
    ) -> None:
        """Lay every polygon of an area on a layer; the first carries its words."""
        for polygon in polygons(shape):
            self.add(layer, Area(css=css, rings=rings_of(polygon), part=part, name=name, alt=alt))
            alt = ""

    def label(self, text: Text, spots: Iterable[Spot], *, dearest: float = 99.0) -> bool:
        """Place a label with its leader; False where it finds no room."""
        placed = self.placer.place(text, spots, dearest=dearest)
        if placed is None:
            return False
        words, spot = placed
        words = replace(words, plate=self._plate(words.box))
        if spot.target is not None:
            self.add(
                "marks",
                Line(css="leader", part=text.part, points=(nearest(words.box, spot.target), spot.target)),
            )
        self.add("labels", words)
        return True

    def _plate(self, box: Box) -> str:
        """Return the ground to lay under a label that lines cross, or "" where none do."""
        if not self.placer.crossings(box):
            return ""
        return "plate-zone" if self.zoned.contains(shapely.Point(box.centre)) else "plate"

    def note(self, words: str) -> None:
        """Say below the drawing what found no room in it."""
        self.notes.append(words)

    @property
    def shapes(self) -> tuple[Drawn, ...]:
        """All shapes, lowest first."""
        return tuple(shape for layer in LAYERS for shape in self.layers[layer])

    def used(self, css: str) -> bool:
        """Tell whether any shape of a class is on the board."""
        return any(shape.css == css for shape in self.shapes)


def polygons(shape: BaseGeometry) -> Iterator[Polygon]:
    """Yield the polygons of an area that have any size."""
    for part in shapely.get_parts(shape):
        if isinstance(part, Polygon) and part.area > 1.0:
            yield part


def rings_of(polygon: Polygon) -> tuple[tuple[Point, ...], ...]:
    """Return the rings of a polygon, closed ends left out [mm]."""
    rings = (polygon.exterior, *polygon.interiors)
    return tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in rings)
