"""The shapes a drawing is made of: millimetres, y upwards from the floor."""

from dataclasses import dataclass, replace
from typing import Self

from zonelib.draw.metrics import LINE, text_width

__all__ = ["Area", "Box", "Disc", "Dots", "Line", "Point", "Shape", "Text", "around", "corners_of"]

Point = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """An upright rectangle [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Width [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height [mm]."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """Middle [mm]."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, by: float) -> "Box":
        """Return the box with a margin on every side [mm]."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def shifted(self, dx: float, dy: float) -> "Box":
        """Return the box moved [mm]."""
        return Box(self.left + dx, self.bottom + dy, self.right + dx, self.top + dy)

    def meets(self, other: "Box") -> bool:
        """Tell whether the insides of two boxes overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def holds(self, other: "Box") -> bool:
        """Tell whether another box lies within this one."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )


def around(x: float, y: float, width: float, height: float) -> Box:
    """Return the box of a size about a centre [mm]."""
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def corners_of(box: Box) -> tuple[Point, ...]:
    """Return the corners of a box, from the lower left one round to the upper left one [mm]."""
    return (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)


@dataclass(frozen=True, kw_only=True)
class Shape:
    """What every shape has.

    Attributes
    ----------
    css : str
        Its class; both pens look up its style there.
    part : str
        The part of the drawing it belongs to.
    name : str
        The id of what it shows, as in the case.
    alt : str
        Its text alternative, or "" for what another shape already says.
    n : int or None
        Number of the failed finding it shows.
    """

    css: str
    part: str = ""
    name: str = ""
    alt: str = ""
    n: int | None = None


@dataclass(frozen=True, kw_only=True)
class Area(Shape):
    """A filled shape: one outer ring, then holes."""

    rings: tuple[tuple[Point, ...], ...]

    def shifted(self, dx: float, dy: float) -> Self:
        """Return the shape moved [mm]."""
        return replace(self, rings=tuple(_moved(ring, dx, dy) for ring in self.rings))


@dataclass(frozen=True, kw_only=True)
class Line(Shape):
    """A line through points."""

    points: tuple[Point, ...]

    def shifted(self, dx: float, dy: float) -> Self:
        """Return the shape moved [mm]."""
        return replace(self, points=_moved(self.points, dx, dy))


@dataclass(frozen=True, kw_only=True)
class Dots(Shape):
    """Sparse dots that fill an area, so that it shows in black and white."""

    points: tuple[Point, ...]

    def shifted(self, dx: float, dy: float) -> Self:
        """Return the shape moved [mm]."""
        return replace(self, points=_moved(self.points, dx, dy))


@dataclass(frozen=True, kw_only=True)
class Disc(Shape):
    """A round mark."""

    x: float
    y: float
    radius: float

    @property
    def box(self) -> Box:
        """The square about it [mm]."""
        return around(self.x, self.y, 2 * self.radius, 2 * self.radius)

    def shifted(self, dx: float, dy: float) -> Self:
        """Return the shape moved [mm]."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True, kw_only=True)
class Text(Shape):
    """One line of text about a centre; `turned` reads upwards, `size` is the em [mm]."""

    text: str
    x: float
    y: float
    size: float
    bold: bool = False
    turned: bool = False
    anchor: str = "middle"
    plate: str = ""

    @property
    def box(self) -> Box:
        """The room it takes, on the safe side [mm]."""
        return self.box_at(self.x, self.y, turned=self.turned)

    def box_at(self, x: float, y: float, *, turned: bool = False) -> Box:
        """Return the room it would take elsewhere [mm]."""
        long, tall = text_width(self.text, self.size, bold=self.bold), LINE * self.size
        if turned:
            return around(x, y, tall, long)
        shift = {"start": long / 2, "end": -long / 2}.get(self.anchor, 0.0)
        return around(x + shift, y, long, tall)

    def shifted(self, dx: float, dy: float) -> Self:
        """Return the shape moved [mm]."""
        return replace(self, x=self.x + dx, y=self.y + dy)


def _moved(points: tuple[Point, ...], dx: float, dy: float) -> tuple[Point, ...]:
    return tuple((x + dx, y + dy) for x, y in points)
