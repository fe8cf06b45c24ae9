"""Build the scene of a cut through a wall: its layers, and how deep the cable lies from each face."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from zonelib.draw.printing import EM_PX
from zonelib.draw.scene import Drawn, Scene
from zonelib.draw.shapes import Area, Box, Line, Text, corners_of
from zonelib.rules.finding import Finding
from zonelib.rules.legs import Leg, legs_of
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import mm
from zonelib.site.model import Case, Fixing, Wall

__all__ = ["section_scene"]

FINEST = 0.2
"""Scale of a cut through an ordinary wall [mm to one CSS pixel]; thicker ones are drawn smaller."""

WIDE_PX = 800.0
SLICE = 15.0
"""How much of the wall is shown [em]."""

NARROWEST = 46.0
"""Title and labels need this width [em]."""

ROW = 1.7
"""Height of a row of labels below the cut [em]."""


@dataclass
class _Cut:
    """A cut while its scene is being built; x runs from the front face to the rear [mm]."""

    wall: Wall
    pack: Pack
    em: float
    shapes: list[Drawn] = field(default_factory=list)
    words: list[str] = field(default_factory=list)

    @property
    def high(self) -> float:
        """Upper edge of the piece shown [mm]."""
        return SLICE * self.em

    def box(self, css: str, left: float, right: float, *, half: float | None = None, alt: str = "") -> None:
        """Add a rectangle over the whole height, or about the middle."""
        low, high = (0.0, self.high) if half is None else (self.high / 2 - half, self.high / 2 + half)
        self.shapes.append(
            Area(css=css, part="section", alt=alt, rings=(corners_of(Box(left, low, right, high)),))
        )

    def line(self, css: str, *points: tuple[float, float]) -> None:
        """Add a line."""
        self.shapes.append(Line(css=css, part="section", points=points))

    def text(self, words: str, x: float, y: float, *, css: str = "text", anchor: str = "middle") -> None:
        """Add words."""
        size = 0.92 * self.em
        self.shapes.append(
            Text(css=css, part="section", text=words, x=x, y=y, size=size, anchor=anchor, plate="plate")
        )


def section_scene(case: Case, wall: str, pack: Pack, *, findings: Sequence[Finding] = ()) -> Scene:
    """Return the drawing of a cut through a wall where its first cable runs.

    Parameters
    ----------
    case : Case
        What is there; fixings into the wall are drawn at the cable, as if they met it.
    wall : str
        Id of the wall.
    pack : Pack
        The rules: from which depth a cable concerns a face, and how deep a chase may be.
    findings : sequence of Finding
        What the engine found; a cable that fails is drawn so.

    Returns
    -------
    Scene
        In millimetres, x from the front face to the rear.
    """
    place = case.wall(wall)
    scale = max(FINEST, place.thickness / WIDE_PX)
    cut = _Cut(place, pack, EM_PX * scale)
    legs = [
        leg
        for route in case.routes
        if route.wall == wall
        for leg in legs_of(route, place, Rulebook(pack, case.readings))
    ]
    failed = {number for one in findings if one.status == "fail" for number in one.where.legs}
    _draw_layers(cut)
    for leg in legs[:1]:
        _draw_chase(cut, leg)
    _draw_triggers(cut)
    for leg in legs[:1]:
        _draw_cable(cut, leg, fails=leg.number in failed)
    _draw_fixings(cut, [one for one in case.fixings if one.wall == wall])
    return _framed(cut, scale)


def _draw_layers(cut: _Cut) -> None:
    wall, build = cut.wall, cut.pack.builds[cut.wall.build]
    front, rear = wall.front.finish, wall.thickness - wall.rear.finish
    cut.box("face", 0.0, wall.thickness)
    if build.metal:
        lip = 0.3 * cut.high
        ends = ((front, lip), (front, 0.0), (rear, 0.0), (rear, lip))
        cut.line("covering", *ends)
        cut.text(build.words, (front + rear) / 2, 1.1 * cut.em, css="text-quiet")
    for left, right in ((0.0, front), (front, rear), (rear, wall.thickness)):
        cut.box("outline", left, right)
    cut.words.append(
        f"A cut through wall {wall.id}: {build.words}, {mm(wall.thickness)} mm thick from face to face, "
        f"with a finish of {mm(wall.front.finish)} mm in front and {mm(wall.rear.finish)} mm behind."
    )


def _draw_triggers(cut: _Cut) -> None:
    """Draw from where on a cable no longer concerns a face."""
    depth, far = cut.pack.walls.trigger_depth, cut.wall.thickness
    for row, (face, x) in enumerate((("front", depth), ("rear", far - depth)), start=3):
        if not 0 < x < far:
            continue
        foot = -row * ROW * cut.em
        cut.line("corner", (x, cut.high), (x, foot + 0.6 * cut.em))
        cut.text(f"{mm(depth)} mm from the {face}", x, foot, css="text-quiet")
        cut.words.append(f"A line marks {mm(depth)} mm from the {face}.")


def _draw_cable(cut: _Cut, leg: Leg, *, fails: bool) -> None:
    left, right, half = leg.front_depth, leg.front_depth + leg.thickness, leg.width / 2
    covering = cut.pack.protections[leg.protection].words
    name = "cable" if leg.protection == "none" else f"cable in {covering}"
    css = "cut-fails" if fails else "drawn"
    size = f"{mm(leg.width)} × {mm(leg.thickness)} mm"
    alt = (
        f"{name}, {size}, {mm(leg.front_depth)} mm below the front and {mm(leg.rear_depth)} mm below the rear"
    )
    cut.box("paper", left, right, half=half)
    cut.box(css, left, right, half=half, alt=f"{alt}.")
    cut.text(f"{name}, fails" if fails else name, (left + right) / 2, cut.high / 2 + half + 0.9 * cut.em)
    _measure(cut, 0.0, left, row=1)
    _measure(cut, right, cut.wall.thickness, row=2)
    cut.words.append(f"{alt[:1].upper()}{alt[1:]}; it {'fails' if fails else 'is in order'}.")


def _measure(cut: _Cut, left: float, right: float, *, row: int) -> None:
    """Draw a length below the cut with its number."""
    y = -row * ROW * cut.em
    tick = 0.3 * cut.em
    for x in (left, right):
        cut.line("rule", (x, y - tick), (x, y + tick))
    cut.line("rule", (left, y), (right, y))
    narrow = right - left < 3.4 * cut.em
    x = max(left, right) + 0.4 * cut.em if narrow else (left + right) / 2
    cut.text(mm(right - left), x, y, anchor="start" if narrow else "middle")


def _draw_chase(cut: _Cut, leg: Leg) -> None:
    """Draw what is cut out of the leaf, and how deep it may be."""
    rule, wall = cut.pack.chases, cut.wall
    if rule is None or not cut.pack.builds[wall.build].chased or leg.direction == "slanting":
        return
    side = leg.shallower_side or "front"
    finish = wall.face(side).finish
    deep = max(finish, leg.depth(side) + leg.thickness)
    limit = wall.chased_leaf / (rule.horizontal if leg.direction == "horizontal" else rule.vertical)
    half = leg.width / 2 + 0.4 * cut.em
    cut.box(
        "cut",
        *_from(side, (0.0, deep), wall),
        half=half,
        alt=f"A chase, {mm(deep - finish)} mm deep in the leaf.",
    )
    x = _from(side, (finish + limit, finish + limit), wall)[0]
    way = "level" if leg.direction == "horizontal" else "upright"
    foot = -5 * ROW * cut.em
    cut.line("leader", (x, cut.high), (x, foot + 0.6 * cut.em))
    cut.text(f"deepest {way} chase: {mm(limit)} mm in the leaf", x, foot, css="text-quiet")
    cut.words.append(
        f"The chase is cut {mm(deep - finish)} mm into a leaf of {mm(wall.chased_leaf)} mm; "
        f"{way}, it may be {mm(limit)} mm."
    )


def _from(side: str, span: tuple[float, float], wall: Wall) -> tuple[float, float]:
    """Return a span counted from a face as x from the front."""
    return span if side == "front" else (wall.thickness - span[1], wall.thickness - span[0])


def _draw_fixings(cut: _Cut, fixings: Sequence[Fixing]) -> None:
    for one in fixings:
        front = one.face == "front"
        head = 0.0 if front else cut.wall.thickness
        tip = one.penetration if front else head - one.penetration
        y = cut.high / 2
        cut.line("fixing", (head, y), (tip, y))
        cut.line("fixing", (head, y - 0.9 * cut.em), (head, y + 0.9 * cut.em))
        away, anchor = (-0.6, "end") if front else (0.6, "start")
        cut.text(f"{one.id}, {mm(one.penetration)}", head + away * cut.em, y, anchor=anchor)
        cut.words.append(f"Screw {one.id} goes {mm(one.penetration)} mm into the {one.face} face.")


def _framed(cut: _Cut, scale: float) -> Scene:
    wall, em = cut.wall, cut.em
    cut.text("front face", 0.0, cut.high + 0.9 * em, anchor="start")
    cut.text("rear face", wall.thickness, cut.high + 0.9 * em, anchor="end")
    title = f"Wall {wall.id}, cut through"
    cut.shapes += _head(cut, title)
    left = min([-2 * em, *(text.box.left - 0.6 * em for text in _texts(cut))])
    right = max(
        [wall.thickness + 2 * em, left + NARROWEST * em, *(text.box.right + 0.6 * em for text in _texts(cut))]
    )
    view = Box(left, -6.2 * ROW * em, right, cut.high + 5 * em)
    paper = Area(css="paper", part="paper", rings=(corners_of(view),))
    return Scene(
        wall=wall.id, face="section", length=wall.thickness, height=cut.high, em=em, scale=scale, view=view,
        title=title, description=" ".join(cut.words), shapes=(paper, *_words_last(cut.shapes)),
    )  # fmt: skip


def _words_last(shapes: Sequence[Drawn]) -> list[Drawn]:
    """Return the shapes with the words on top, so that no line runs through them."""
    return sorted(shapes, key=lambda shape: isinstance(shape, Text))


def _texts(cut: _Cut) -> Iterator[Text]:
    return (shape for shape in cut.shapes if isinstance(shape, Text))


def _head(cut: _Cut, title: str) -> list[Drawn]:
    em = cut.em
    make = f"{cut.pack.builds[cut.wall.build].words} · {mm(cut.wall.thickness)} mm thick"
    rows = (("text-title", title, 1.3, 3.8), ("text-quiet", make, 0.95, 2.4))
    return [
        Text(
            css=css,
            part="title",
            text=words,
            x=0.0,
            y=cut.high + up * em,
            size=size * em,
            anchor="start",
            bold=size > 1,
        )
        for css, words, size, up in rows
    ]
