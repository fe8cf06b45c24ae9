"""A scene: everything one drawing shows, before any pen touches it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from zonelib.draw.shapes import Area, Box, Disc, Dots, Line, Text

__all__ = ["EVERY_PART", "Drawn", "Scene", "joined"]

Drawn = Area | Line | Dots | Disc | Text

EVERY_PART = frozenset(
    {
        "title", "zones", "other-zones", "accessories", "hidden", "routes", "findings", "points",
        "fixings", "labels", "dimensions", "scale", "legend", "notes", "safety",
    }
)  # fmt: skip
"""Parts of a wall's drawing that can be left out; outline and openings are always there."""


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A drawing in millimetres, y upwards from the floor.

    Attributes
    ----------
    wall, face : str
        What is drawn.
    length, height : float
        Of the wall; the greatest height where its top slopes [mm].
    em : float
        Size of its text [mm].
    scale : float
        Millimetres to one CSS pixel at real size.
    view : Box
        The paper [mm].
    title, description : str
        Text alternative of the whole, made from the same data.
    shapes : tuple
        In the order they are drawn.
    notes : tuple of str
        What found no room in the drawing and stands below it.
    """

    wall: str
    face: str
    length: float
    height: float
    em: float
    scale: float
    view: Box
    title: str
    description: str
    shapes: tuple[Drawn, ...]
    notes: tuple[str, ...] = ()

    @property
    def texts(self) -> tuple[Text, ...]:
        """Every line of text in it."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))

    def of(self, css: str) -> tuple[Drawn, ...]:
        """Return the shapes of one class."""
        return tuple(shape for shape in self.shapes if shape.css == css)

    def shifted(self, dx: float, dy: float = 0.0) -> "Scene":
        """Return the scene moved [mm]."""
        moved = tuple(shape.shifted(dx, dy) for shape in self.shapes)
        return replace(self, shapes=moved, view=self.view.shifted(dx, dy))


def joined(scenes: Iterable[Scene]) -> Scene:
    """Return scenes as one drawing; each must already lie where it belongs.

    Wall, face, text size and scale are those of the first; length and height reach over all.
    """
    every = tuple(scenes)
    views = [scene.view for scene in every]
    return replace(
        every[0],
        length=sum(scene.length for scene in every),
        height=max(scene.height for scene in every),
        view=Box(
            min(view.left for view in views), min(view.bottom for view in views),
            max(view.right for view in views), max(view.top for view in views),
        ),
        title=". ".join(scene.title for scene in every),
        description=" ".join(scene.description for scene in every),
        shapes=tuple(shape for scene in every for shape in scene.shapes),
        notes=tuple(note for scene in every for note in scene.notes),
    )  # fmt: skip
