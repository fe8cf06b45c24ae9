"""Build the scene of a joist seen from its side: supports, what is cut, and where cutting is allowed."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

import shapely

from zonelib.draw.metrics import text_width
from zonelib.draw.placing import Placer, Spot, spread
from zonelib.draw.printing import EM_PX, text_scale
from zonelib.draw.scene import Drawn, Scene
from zonelib.draw.shapes import Area, Box, Disc, Line, Point, Text, corners_of
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.site.timber import Hole, Joist, Notch

__all__ = ["joist_scene"]

WIDE_PX = 1100.0
"""Width of the span at real size [CSS px]."""

SMALL = 0.92
DISC = 1.7
"""Room of one number [em]."""

CROWD = 8
"""From more cuts than this only their names are written."""

ROOM = 7.0
"""Room above and below the joist for labels [em]."""


@dataclass
class _Bench:
    """One joist while its scene is being built."""

    joist: Joist
    pack: Pack
    em: float
    placer: Placer
    numbers: Mapping[str, Collection[int]]
    under: list[Drawn] = field(default_factory=list)
    over: list[Drawn] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    texts: list[tuple[str, Box]] = field(default_factory=list)

    def box(self, css: str, box: Box, *, alt: str = "", name: str = "") -> Area:
        """Return a rectangle; a number on it makes it a failing one."""
        n = min(self.numbers.get(name, ()), default=None)
        return Area(css=css, part="joist", name=name, alt=alt, rings=(corners_of(box),), n=n)


def joist_scene(
    joist: Joist, pack: Pack, *, numbers: Mapping[str, Collection[int]] | None = None, limits: bool = False
) -> Scene:
    """Return the drawing of a joist from its side.

    Parameters
    ----------
    joist : Joist
        The joist with what is cut in it.
    pack : Pack
        The rules that limit what may be cut.
    numbers : mapping of str to collection of int, optional
        By the id of a hole or notch, the numbers of the failed findings that tell of it.
    limits : bool
        Whether to show where cutting is allowed.

    Returns
    -------
    Scene
        In millimetres, x along the span from the left support, y upwards from the joist's bottom.
    """
    scale = text_scale(joist.span / WIDE_PX)
    em = EM_PX * scale
    stage = Box(-4 * em, -ROOM * em, joist.span + 4 * em, joist.depth + ROOM * em)
    bench = _Bench(joist, pack, em, Placer(stage), numbers or {})
    _draw_timber(bench)
    if limits:
        _draw_limits(bench)
    _draw_cuts(bench)
    _label_limits(bench)
    view = _frame(bench, stage)
    title = f"Joist {joist.id}, from the side"
    shapes = (Area(css="paper", part="paper", rings=(corners_of(view),)), *bench.under, *bench.over)
    return Scene(
        wall=joist.id, face="side", length=joist.span, height=joist.depth, em=em, scale=scale, view=view,
        title=title, description=" ".join([f"{title}: {_size(joist)}.", *bench.words]), shapes=shapes,
    )  # fmt: skip


def _size(joist: Joist) -> str:
    return f"{mm(joist.depth)} mm deep, {mm(joist.width)} mm wide, clear span {mm(joist.span)} mm"


def _draw_timber(bench: _Bench) -> None:
    joist, em = bench.joist, bench.em
    timber = Box(0.0, 0.0, joist.span, joist.depth)
    bench.under += [bench.box("face", timber), bench.box("outline", timber)]
    bench.placer.block(timber)
    for left, right in ((-3 * em, 0.0), (joist.span, joist.span + 3 * em)):
        support = Box(left, -2.4 * em, right, 0.0)
        bench.under.append(bench.box("opening", support, alt="A support."))
        bench.placer.block(support)
    middle = ((0.0, joist.depth / 2), (joist.span, joist.depth / 2))
    bench.under.append(Line(css="corner", part="joist", points=middle, alt="The centre line."))


def _draw_limits(bench: _Bench) -> None:
    """Draw where the pack lets holes and notches lie, as shares of the span from either support."""
    joist, limits = bench.joist, bench.pack.joists
    if limits is None:
        return
    hole, notch = limits.hole, limits.notch
    cover = limits.cover or 0.0
    if hole.start is not None and hole.to is not None and joist.depth > 2 * cover:
        bands = _both_ends(joist, hole.start, hole.to)
        _allow(bench, bands, (cover, joist.depth - cover), "holes may lie here, on the centre line")
    if notch.start is not None and notch.to is not None and notch.depth is not None:
        top = joist.depth - notch.depth * joist.depth
        _allow(bench, _both_ends(joist, notch.start, notch.to), (top, joist.depth), "notches may lie here")


def _both_ends(joist: Joist, start: float, to: float) -> list[tuple[float, float]]:
    near, far = start * joist.span, to * joist.span
    return [(near, far), (joist.span - far, joist.span - near)]


def _allow(bench: _Bench, bands: list[tuple[float, float]], heights: tuple[float, float], words: str) -> None:
    for left, right in bands:
        box = Box(left, heights[0], right, heights[1])
        alt = f"From x {mm(left)} to {mm(right)}: {words}."
        bench.under += [bench.box("zone", box, alt=alt), bench.box("zone-edge", box)]
        bench.words.append(alt)
    bench.texts.append((words, Box(bands[-1][0], heights[0], bands[-1][1], heights[1])))


def _label_limits(bench: _Bench) -> None:
    for words, band in bench.texts:
        text = Text(css="text-zone", part="joist", text=words, x=0, y=0, size=0.85 * bench.em)
        y = bench.joist.depth + 0.9 * bench.em if band.top >= bench.joist.depth else -0.9 * bench.em
        spots = (Spot(band.centre[0] + step * bench.em, y, cost=abs(step)) for step in range(-30, 31))
        if placed := bench.placer.place(text, spots):
            bench.over.append(placed[0])


def _draw_cuts(bench: _Bench) -> None:
    labels = [_hole(bench, hole) for hole in bench.joist.holes]
    labels += [_notch(bench, notch) for notch in bench.joist.notches]
    labels.sort(key=lambda one: one.target)
    places = spread([one.target[0] for one in labels], [one.width(bench.em) for one in labels])
    for label, x in zip(labels, places, strict=True):
        _write(bench, label, x - label.width(bench.em) / 2)


@dataclass(frozen=True)
class _Label:
    """Words that stand over a cut, with the numbers of the findings that tell of it."""

    words: str
    target: Point
    numbers: tuple[int, ...]

    def width(self, em: float) -> float:
        return text_width(self.words, SMALL * em) + (len(self.numbers) * DISC + 1.2) * em


def _hole(bench: _Bench, hole: Hole) -> _Label:
    shape = shapely.Point(hole.x, hole.y).buffer(hole.diameter / 2)
    return _cut(bench, hole, shape, f"{mm(hole.diameter)} across")


def _notch(bench: _Bench, notch: Notch) -> _Label:
    top = bench.joist.depth if notch.edge == "top" else notch.depth
    shape = shapely.box(notch.x - notch.length / 2, top - notch.depth, notch.x + notch.length / 2, top)
    return _cut(bench, notch, shape, f"{mm(notch.length)} long, {mm(notch.depth)} deep")


def _cut(bench: _Bench, cut: Hole | Notch, shape: shapely.Polygon, size: str) -> _Label:
    told = tuple(sorted(bench.numbers.get(cut.id, ())))
    covered = "" if cut.protection == "none" else f", {bench.pack.protections[cut.protection].words}"
    alt = f"{cut.id}, {size}{covered}, at x {mm(cut.x)}{_told(told)}."
    ring = tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
    css = "cut-fails" if told else "cut"
    bench.over.append(
        Area(css=css, part="joist", name=cut.id, alt=alt, rings=(ring,), n=min(told, default=None))
    )
    left, bottom, right, top = shape.bounds
    if covered:
        bench.over.append(_plate(bench, Box(left, bottom, right, top)))
    bench.words.append(alt)
    words = (
        cut.id if len(bench.joist.holes) + len(bench.joist.notches) > CROWD else f"{cut.id} · {size}{covered}"
    )
    return _Label(words, ((left + right) / 2, top), told)


def _told(numbers: tuple[int, ...]) -> str:
    return f"; see number {', '.join(map(str, numbers))}" if numbers else ""


def _plate(bench: _Bench, box: Box) -> Line:
    """Return a plate along the nearer edge of the joist, over the cut."""
    y = bench.joist.depth if bench.joist.depth - box.top <= box.bottom else 0.0
    ends = ((box.left - bench.em, y), (box.right + bench.em, y))
    return Line(css="covering", part="joist", points=ends, alt="A covering.")


def _write(bench: _Bench, label: _Label, left: float) -> None:
    em, y = bench.em, bench.joist.depth + 2.6 * bench.em
    text = Text(css="text", part="joist", text=label.words, x=left, y=y, size=SMALL * em, anchor="start")
    bench.placer.block(Box(left, text.box.bottom, left + label.width(em), text.box.top))
    start = (text.box.centre[0], text.box.bottom)
    bench.placer.avoid((start, label.target), 50.0)
    bench.over += [Line(css="leader", part="joist", points=(start, label.target)), text]
    for place, number in enumerate(label.numbers):
        x = text.box.right + (0.9 + place * DISC) * em
        radius, size = 0.72 * em, 0.95 * em
        bench.over.append(
            Disc(css="number", part="findings", name=str(number), x=x, y=y, radius=radius, n=number)
        )
        bench.over.append(
            Text(css="text-number", part="findings", text=str(number), x=x, y=y, size=size, bold=True)
        )


def _frame(bench: _Bench, stage: Box) -> Box:
    """Draw title, size and the ruler below, and return the paper [mm]."""
    joist, em = bench.joist, bench.em
    low = min([-2.4 * em, *(box.bottom for box in bench.placer.taken)]) - 0.8 * em
    bench.over.extend(_ruler(bench, low))
    high = max([joist.depth, *(box.top for box in bench.placer.taken)]) + 1.2 * em
    for words, size, up, css in (
        (_size(joist), 0.95, 0.5, "text-quiet"),
        (f"Joist {joist.id}, from the side", 1.3, 2.1, "text-title"),
    ):
        bench.over.append(
            Text(
                css=css,
                part="title",
                text=words,
                x=stage.left + 0.8 * em,
                y=high + up * em,
                size=size * em,
                anchor="start",
                bold=size > 1,
            )
        )
    boxes = [shape.box for shape in bench.over if isinstance(shape, Text)]
    left = min([stage.left, *(box.left - 0.8 * em for box in boxes)])
    right = max([stage.right, *(box.right + 2 * em for box in boxes)])
    return Box(left, low - 3.2 * em, right, high + 3.4 * em)


def _ruler(bench: _Bench, low: float) -> Iterator[Drawn]:
    joist, em = bench.joist, bench.em
    cuts = [one.x for one in joist.holes] + [one.x for one in joist.notches]
    ends = [0.0, joist.span, *cuts]
    marks = sorted({round(x, 1) for x in ends if 0 <= x <= joist.span})
    yield Line(css="rule", part="dimensions", points=((0.0, low), (joist.span, low)))
    texts = [
        Text(css="text-quiet", part="dimensions", text=mm(x), x=x, y=low - 1.6 * em, size=0.9 * em)
        for x in marks
    ]
    places = spread(marks, [text.box.width + 0.4 * em for text in texts])
    for x, place, text in zip(marks, places, texts, strict=True):
        yield Line(
            css="rule", part="dimensions", points=((x, low + 0.3 * em), (x, low), (place, low - 0.9 * em))
        )
        yield Text(css="text-quiet", part="dimensions", text=text.text, x=place, y=text.y, size=text.size)
