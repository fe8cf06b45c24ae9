"""The pen for the screen: a scene as SVG, styled by classes, without scripts."""

import re
from collections.abc import Iterator
from functools import cache, lru_cache
from html import escape

from zonelib.draw.look import LOOK, Style
from zonelib.draw.scene import Drawn, Scene
from zonelib.draw.shapes import Area, Box, Disc, Dots, Line, Text

__all__ = ["stylesheet", "svg"]

FONT = "'DejaVu Sans', Verdana, sans-serif"

UNHELD = re.compile(r"[\x00-\x08\x0b-\x1f\ufffe\uffff]")
"""What XML cannot hold."""


def svg(scene: Scene, *, name: str = "wall") -> str:
    """Return a scene as one SVG element.

    The unit is the millimetre: x as drawn, y downwards from the wall's greatest height. Failing stretches
    carry `data-n`, take the focus, and have the id `NAME-nN`.

    Parameters
    ----------
    scene : Scene
        The drawing.
    name : str
        Start of every id in it; give each drawing on a page its own.
    """
    return "\n".join(["", *_document(scene, name), ""]).lstrip("\n")


def _document(scene: Scene, name: str) -> Iterator[str]:
    view = scene.view
    box = f"{_n(view.left)} {_n(scene.height - view.top)} {_n(view.width)} {_n(view.height)}"
    size = f'width="{view.width / scene.scale:.0f}" height="{view.height / scene.scale:.0f}"'
    data = f'data-length="{_n(scene.length)}" data-height="{_n(scene.height)}" data-face="{scene.face}"'
    em = f'font-size="{_n(scene.em)}"'
    labels = _quoted(f"{name}-title {name}-desc")
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="zl-picture" {em} {size} viewBox="{box}" {data} '
        f'data-wall={_quoted(scene.wall)} role="group" aria-labelledby={labels}>'
    )
    yield f"<title id={_quoted(f'{name}-title')}>{_text(scene.title)}</title>"
    yield f"<desc id={_quoted(f'{name}-desc')}>{_text(scene.description)}</desc>"
    yield f"<style>{stylesheet()}</style>"
    seen: set[int] = set()
    for shape in scene.shapes:
        yield from _shape(shape, scene, name, seen)
    yield "</svg>"


@cache
def stylesheet() -> str:
    """Return the rules of the classes, forced colours included.

    Widths are in ems of the drawing, so that drawings of any size share a page.
    """
    rules = [
        f".zl-picture text{{font-family:{FONT}}}",
        ".zl-picture [data-n]:focus{outline:.2em solid #1c2733}",
    ]
    rules += [f".zl-picture .{css}{{{_rule(style)}}}" for css, style in LOOK.items()]
    forced = [f".zl-picture .{css}{{{_forced(css, style)}}}" for css, style in LOOK.items()]
    forced += [".zl-picture [data-n]:focus{outline-color:Highlight}", ".zl-picture{forced-color-adjust:none}"]
    rules.append(f"@media (forced-colors:active){{{''.join(forced)}}}")
    return "".join(rules)


def _rule(style: Style) -> str:
    parts = [f"fill:{style.fill or 'none'}"]
    if style.stroke:
        parts += [f"stroke:{style.stroke}", f"stroke-width:{style.width:g}em", "stroke-linejoin:round"]
    if style.dash:
        lengths = " ".join(f"{length:g}em" for length in style.dash)
        parts.append(f"stroke-dasharray:{lengths}")
    if style.round:
        parts.append("stroke-linecap:round")
    return ";".join(parts)


def _forced(css: str, style: Style) -> str:
    if css.startswith("text"):
        return f"fill:{style.forced}"
    stroke = "CanvasText" if style.forced in ("Canvas", "Highlight") else style.forced
    fill = style.forced if style.fill else "none"
    return f"fill:{fill};stroke:{stroke}" if style.stroke else f"fill:{fill}"


def _shape(shape: Drawn, scene: Scene, name: str, seen: set[int]) -> Iterator[str]:
    common = _common(shape, name, seen)
    inner = f"<title>{_text(shape.alt)}</title>" if shape.alt else ""
    if isinstance(shape, Text):
        yield from _words(shape, scene, common)
    elif isinstance(shape, Disc):
        x, y = _n(shape.x), _n(scene.height - shape.y)
        yield f'<circle {common} cx="{x}" cy="{y}" r="{_n(shape.radius)}">{inner}</circle>'
    else:
        yield f'<path {common} d="{_path(shape, scene.height)}">{inner}</path>'


def _common(shape: Drawn, name: str, seen: set[int]) -> str:
    parts = [f'class="{shape.css}"']
    if shape.part:
        parts.append(f'data-part="{shape.part}"')
    if shape.name:
        parts.append(f"data-name={_quoted(shape.name)}")
    if shape.n is not None:
        parts.append(f'data-n="{shape.n}"')
        if shape.n not in seen:
            seen.add(shape.n)
            parts.append(f'id={_quoted(f"{name}-n{shape.n}")} tabindex="0" role="img"')
            parts.append(f"aria-label={_quoted(shape.alt or f'Number {shape.n}')}")
    return " ".join(parts)


def _path(shape: Area | Line | Dots, height: float) -> str:
    if isinstance(shape, Dots):
        return "".join(f"M{_n(x)} {_n(height - y)}h0" for x, y in shape.points)
    if isinstance(shape, Line):
        return "M" + "L".join(f"{_n(x)} {_n(height - y)}" for x, y in shape.points)
    return "".join("M" + "L".join(f"{_n(x)} {_n(height - y)}" for x, y in ring) + "Z" for ring in shape.rings)


def _words(text: Text, scene: Scene, common: str) -> Iterator[str]:
    if text.plate:
        yield _plate(text.box, text.plate, scene.height)
    y = scene.height - text.y
    weight = ' font-weight="bold"' if text.bold else ""
    turn = f' transform="rotate(-90 {_n(text.x)} {_n(y)})"' if text.turned else ""
    yield (
        f'<text {common} x="{_n(text.x)}" y="{_n(y + 0.36 * text.size)}" font-size="{_n(text.size)}px" '
        f'text-anchor="{text.anchor}"{weight}{turn}>{_text(text.text)}</text>'
    )


def _plate(box: Box, css: str, height: float) -> str:
    place = f'x="{_n(box.left)}" y="{_n(height - box.top)}" width="{_n(box.width)}" height="{_n(box.height)}"'
    return f'<rect class="{css}" {place}/>'


def _text(words: str) -> str:
    return escape(_clean(words), quote=False)


def _quoted(words: str) -> str:
    """Return an attribute's value in its quotes; a line's end would else be read as a blank."""
    inner = _text(words).replace('"', "&quot;").replace("\n", "&#10;").replace("\t", "&#9;")
    return f'"{inner}"'


def _clean(words: str) -> str:
    return UNHELD.sub("", words)


# A drawing holds thousands of dots, in rows and columns: few numbers, over and over.
@lru_cache(maxsize=1 << 14)
def _n(value: float) -> str:
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
