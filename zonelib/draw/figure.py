"""The pen for paper: a scene as a matplotlib figure, for PNG and PDF."""

import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.patches import Circle, PathPatch, Rectangle
from matplotlib.path import Path

from zonelib.draw.look import style_of
from zonelib.draw.scene import Drawn, Scene
from zonelib.draw.shapes import Area, Disc, Dots, Line, Text

__all__ = ["DPI", "drawing", "figure", "put_on", "save", "save_pages"]

PX_PER_INCH = 96
POINTS_PER_PX = 0.75
DPI = 192
RC: dict[Any, Any] = {
    "font.family": "DejaVu Sans",
    "lines.scale_dashes": False,
    "pdf.fonttype": 42,
    "text.parse_math": False,
    "text.usetex": False,
}


def figure(scene: Scene) -> Figure:
    """Return a scene as a figure at real size.

    Parameters
    ----------
    scene : Scene
        The drawing.
    """
    with rc_context(RC):
        view, px = scene.view, scene.scale * PX_PER_INCH
        drawn = Figure(figsize=(view.width / px, view.height / px), dpi=DPI)
        FigureCanvasAgg(drawn)
        put_on(drawn.add_axes((0, 0, 1, 1)), scene)
        return drawn


def put_on(axes: Any, scene: Scene, *, mm_per_px: float | None = None) -> None:
    """Draw a scene on axes that are as large as its view.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        What to draw on.
    scene : Scene
        The drawing.
    mm_per_px : float, optional
        How large the axes are: millimetres of wall to one CSS pixel of paper; by default the scene's scale.
    """
    view, scene = scene.view, replace(scene, scale=mm_per_px or scene.scale)
    axes.set(xlim=(view.left, view.right), ylim=(view.bottom, view.top))
    axes.set_axis_off()
    for layer, shape in enumerate(scene.shapes):
        for artist in _artists(shape, scene):
            artist.set_zorder(layer)
            artist.set_snap(False)  # snapped to pixels, a dot has no length and vanishes
            axes.add_artist(artist)
        if isinstance(shape, Text):
            _write(axes, shape, scene, layer)


def save(scene: Scene, path: FilePath) -> None:
    """Write a scene as PNG, or as PDF by `save_pages`, by the ending of the name."""
    if path.suffix.lower() == ".pdf":
        save_pages([scene], path)
        return
    words = {"Title": scene.title, "Description": scene.description}
    with drawing():
        figure(scene).savefig(path, format="png", dpi=DPI, metadata=words)


def save_pages(scenes: Sequence[Scene], path: FilePath) -> None:
    """Write scenes as the pages of one PDF; its text stays text.

    Parameters
    ----------
    scenes : sequence of Scene
        One for each page.
    path : Path
        The file to write.
    """
    # Without a date the same case gives the same file.
    words: dict[str, Any] = {"Title": scenes[0].title, "Subject": scenes[0].description, "CreationDate": None}
    with drawing(), PdfPages(path, metadata=words) as pages:
        for scene in scenes:
            pages.savefig(figure(scene), dpi=DPI)


@contextmanager
def drawing() -> Iterator[None]:
    """Draw with our settings; a letter the font lacks becomes a box, and is no reason for a warning."""
    with rc_context(RC), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing from font")
        yield


def _points(ems: float, scene: Scene) -> float:
    return ems * scene.em / scene.scale * POINTS_PER_PX


def _paint(css: str, scene: Scene) -> dict[str, Any]:
    style = style_of(css)
    width = _points(style.width, scene)
    dash = (0, [length * scene.em / scene.scale * POINTS_PER_PX for length in style.dash])
    return {
        "facecolor": style.fill or "none", "edgecolor": style.stroke or "none", "linewidth": width,
        "linestyle": dash if style.dash else "-", "joinstyle": "round",
        "capstyle": "round" if style.round else "butt",
    }  # fmt: skip


def _artists(shape: Drawn, scene: Scene) -> list[Any]:
    if isinstance(shape, Text):
        if not shape.plate:
            return []
        box = shape.box
        return [Rectangle((box.left, box.bottom), box.width, box.height, **_paint(shape.plate, scene))]
    if isinstance(shape, Disc):
        return [Circle((shape.x, shape.y), shape.radius, gid=shape.name, **_paint(shape.css, scene))]
    return [PathPatch(_path(shape), gid=shape.name, **_paint(shape.css, scene))]


def _path(shape: Area | Line | Dots) -> Path:
    if isinstance(shape, Dots):
        ends = [point for dot in shape.points for point in (dot, (dot[0] + 0.01, dot[1]))]
        return Path(ends, [Path.MOVETO, Path.LINETO] * len(shape.points))
    if isinstance(shape, Line):
        return Path(shape.points)
    rings = [Path([*ring, ring[0]], closed=True) for ring in shape.rings]
    return Path.make_compound_path(*rings)


def _write(axes: Any, text: Text, scene: Scene, layer: int) -> None:
    down = 0.36 * text.size
    x, y = (text.x + down, text.y) if text.turned else (text.x, text.y - down)
    axes.text(
        x, y, text.text, fontsize=text.size / scene.scale * POINTS_PER_PX, color=style_of(text.css).fill,
        ha={"start": "left", "middle": "center", "end": "right"}[text.anchor], va="baseline", zorder=layer,
        fontweight="bold" if text.bold else "normal", rotation=90 if text.turned else 0,
        rotation_mode="anchor", parse_math=False,
    )  # fmt: skip
