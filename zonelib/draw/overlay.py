"""Marks laid over a finished drawing: what an answer shows, what it missed, and a key below."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain

import numpy as np
import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from zonelib.draw.metrics import LINE, text_width
from zonelib.draw.scene import Drawn, Scene
from zonelib.draw.shapes import Area, Box, Disc, Line, Point, Text, around, corners_of

__all__ = ["Mark", "overlaid"]

HATCHED = {"strayed": 0.9}
"""Classes filled with slanting lines, and the distance of these [em]."""

UNDER = {"zone": "zone-edge"}
"""Classes that lie under what is there, and the class of their edge."""

KEY = 2.4
"""Width of a key's sample [em]."""

SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
"""Where across a mark its number may stand, best first."""


@dataclass(frozen=True, kw_only=True)
class Mark:
    """One thing laid over a drawing.

    Attributes
    ----------
    css : str
        Its class.
    shape : geometry
        Area or line, in the front view; points are places where its number may stand, best first [mm].
    alt : str
        Its text alternative.
    n : int or None
        Number of the message that tells of it.
    label : str
        Words written on it.
    """

    css: str
    shape: BaseGeometry
    alt: str
    n: int | None = None
    label: str = ""


def overlaid(scene: Scene, marks: Sequence[Mark], *, key: Mapping[str, str]) -> Scene:
    """Return a drawing with marks over it.

    Parameters
    ----------
    scene : Scene
        The drawing, front or rear.
    marks : sequence of Mark
        In the order they are drawn.
    key : mapping of str to str
        What each class stands for; only what is used is told below the drawing.
    """
    turned = [replace(one, shape=_as_drawn(one.shape, scene)) for one in marks]
    under = [shape for one in turned if one.css in UNDER for shape in _shapes(one, scene.em)]
    over = [shape for one in turned if one.css not in UNDER for shape in _shapes(one, scene.em)]
    taken = [*(text.box for text in scene.texts), *_things(scene)]
    over += [
        shape for one in sorted(turned, key=lambda one: one.n is None) for shape in _words(one, scene, taken)
    ]
    used = {css: words for css, words in key.items() if any(one.css == css for one in marks)}
    told = " ".join(one.alt for one in marks)
    ground = [at for at, shape in enumerate(scene.shapes, start=1) if shape.css in ("paper", "face")]
    below, above = scene.shapes[: max(ground, default=0)], scene.shapes[max(ground, default=0) :]
    shapes = (*below, *under, *above, *over)
    whole = replace(scene, shapes=shapes, description=f"{scene.description} {told}".strip())
    return _with_key(whole, used)


def _things(scene: Scene) -> Iterator[Box]:
    for shape in scene.shapes:
        if isinstance(shape, Area) and shape.part == "accessories":
            yield Box(*shapely.bounds(shapely.MultiPoint(shape.rings[0])).tolist())


def _as_drawn(shape: BaseGeometry, scene: Scene) -> BaseGeometry:
    return shape if scene.face != "rear" else affine_transform(shape, [-1, 0, 0, 1, scene.length, 0])


def _shapes(mark: Mark, em: float) -> Iterator[Drawn]:
    alt, n = mark.alt, mark.n
    for part in shapely.get_parts(mark.shape):
        if isinstance(part, shapely.Polygon):
            rings = tuple(_points(ring)[:-1] for ring in (part.exterior, *part.interiors))
            yield Area(css=mark.css, part="findings", rings=rings, alt=alt, n=n)
            if mark.css in UNDER:
                yield Area(css=UNDER[mark.css], part="findings", rings=rings)
            yield from _hatching(mark.css, part, em)
        elif isinstance(part, shapely.LineString):
            yield Line(css=mark.css, part="findings", points=_points(part), alt=alt, n=n)
        alt, n = "", None


def _points(line: BaseGeometry) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))


def _hatching(css: str, area: shapely.Polygon, em: float) -> Iterator[Line]:
    if css not in HATCHED:
        return
    left, bottom, right, top = area.bounds
    rise = top - bottom
    starts = np.arange(left - rise, right, HATCHED[css] * em * np.sqrt(2))
    lines = shapely.linestrings([[(x, bottom), (x + rise, top)] for x in starts])
    for piece in shapely.get_parts(shapely.intersection(lines, area)):
        for part in shapely.get_parts(piece):
            if isinstance(part, shapely.LineString) and part.length > 0:
                yield Line(css=f"{css}-hatch", part="findings", points=_points(part))


def _words(mark: Mark, scene: Scene, taken: list[Box]) -> Iterator[Drawn]:
    if mark.label:
        yield from _label(mark, scene, taken)
    if mark.n is not None:
        radius = 0.72 * scene.em
        x, y = _free(mark.shape, (2 * radius, 2 * radius), taken)
        taken.append(around(x, y, 2 * radius, 2 * radius))
        number = str(mark.n)
        yield Disc(css="number", part="findings", name=number, x=x, y=y, radius=radius, n=mark.n)
        size = 0.95 * scene.em
        yield Text(css="text-number", part="findings", text=number, x=x, y=y, size=size, bold=True)


def _label(mark: Mark, scene: Scene, taken: list[Box]) -> Iterator[Drawn]:
    left, bottom, right, top = mark.shape.bounds
    words = Text(
        css="text-zone" if mark.css in UNDER else "text", part="findings", text=mark.label, x=0, y=0,
        size=0.92 * scene.em, turned=top - bottom > 2 * (right - left),
        plate="plate-zone" if mark.css in UNDER else "plate",
    )  # fmt: skip
    x, y = _free(mark.shape, (words.box.width, words.box.height), taken)
    words = replace(words, x=x, y=y)
    taken.append(words.box)
    yield words


def _free(shape: BaseGeometry, size: tuple[float, float], taken: Sequence[Box]) -> Point:
    """Return where in a shape a box of a size meets nothing; in its middle where it must."""
    spots = _spots(shape)
    first = next(spots)
    for x, y in chain([first], spots):
        box = around(x, y, *size)
        if not any(box.meets(other) for other in taken):
            return x, y
    return first


def _spots(shape: BaseGeometry) -> Iterator[Point]:
    if isinstance(shape, shapely.MultiPoint):
        yield from _points(shape)
        return
    largest = max(shapely.get_parts(shape), key=lambda part: (part.area, part.length))
    middle = largest.representative_point()
    left, bottom, right, top = largest.bounds
    across, upward = right - left, top - bottom
    for along in SHARES:
        for aside in SHARES:
            share = (along, aside) if across > upward else (aside, along)
            x, y = left + share[0] * across, bottom + share[1] * upward
            if shapely.dwithin(largest, shapely.Point(x, y), 1.0):
                yield x, y
    yield middle.x, middle.y


def _with_key(scene: Scene, key: Mapping[str, str]) -> Scene:
    """Return the drawing with a line for each class below it."""
    em, size, view = scene.em, 0.9 * scene.em, scene.view
    left, row, x, drawn = view.left + 0.8 * em, view.bottom - 0.2 * em, view.left + 0.8 * em, list[Drawn]()
    for css, words in key.items():
        need = KEY * em + 0.5 * em + text_width(words, size)
        if x > left and x + need > view.right - 0.8 * em:
            x, row = left, row - 1.7 * em
        drawn += _sample(css, Box(x, row - 0.5 * em, x + KEY * em, row + 0.5 * em), em)
        at = x + (KEY + 0.5) * em
        drawn.append(Text(css="text", part="legend", text=words, x=at, y=row, size=size, anchor="start"))
        x += need + 1.6 * em
    if not drawn:
        return scene
    longer = replace(view, bottom=row - LINE * em)
    paper = Area(css="paper", part="paper", rings=(corners_of(longer),))
    kept = tuple(shape for shape in scene.shapes if shape.css != "paper")
    return replace(scene, view=longer, shapes=(paper, *kept, *drawn))


def _sample(css: str, box: Box, em: float) -> list[Drawn]:
    square = shapely.box(box.left, box.bottom, box.right, box.top)
    return [replace(one, part="legend") for one in _shapes(Mark(css=css, shape=square, alt=""), em)]
