"""What is there: outline, openings, accessories, corners, fixings, each with its label."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from zonelib.draw.board import Board, polygons, rings_of
from zonelib.draw.placing import Spot, beside
from zonelib.draw.shapes import Area, Box, Line, Text, around, corners_of
from zonelib.draw.words import accessory_alt, fixing_alt, kind_words, opening_alt
from zonelib.site.geometry import face_outline
from zonelib.site.model import Accessory, Fixing
from zonelib.site.row import Row

__all__ = [
    "draw_accessories",
    "draw_corners",
    "draw_fixings",
    "draw_openings",
    "draw_outline",
    "label_accessories",
    "label_openings",
    "label_walls",
]

CORNERS_FIRST = (4, 5, 6, 7, 0, 1, 2, 3)
"""An accessory's own zones run from its four sides, so its name stands off a corner."""


def draw_outline(board: Board) -> None:
    """Draw the face and its edge."""
    outline = board.area(face_outline(board.wall))
    board.fill("ground", "face", outline)
    board.fill("things", "outline", outline)
    for polygon in polygons(outline):
        ring = rings_of(polygon)[0]
        board.placer.avoid((*ring, ring[0]), 1.5)


def label_walls(board: Board) -> None:
    """Name each wall of a row at its foot."""
    if not isinstance(board.wall, Row):
        return
    for wall, start in board.wall.placed:
        text = _text(board, wall.id, "text-quiet", name=wall.id)
        foot = 0.8 * board.em
        spots = [
            Spot(start + share * wall.length, foot, cost=0.1 * step) for step, share in enumerate(ALONG_FOOT)
        ]
        if not board.label(text, spots):
            board.note(f"Wall {wall.id} runs from {start:g} to {start + wall.length:g}.")


ALONG_FOOT = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


def draw_openings(board: Board) -> None:
    """Draw doors, windows and hatches, crossed through as what is not wall."""
    for opening in board.wall.openings:
        box = board.box(opening.bounds)
        ring = corners_of(box)
        board.add(
            "things",
            Area(css="opening", part="openings", name=opening.id, alt=opening_alt(opening), rings=(ring,)),
        )
        for one, other in ((ring[0], ring[2]), (ring[1], ring[3])):
            board.add("things", Line(css="opening-cross", part="openings", points=(one, other)))
        board.placer.avoid((*ring, ring[0]), 2.0)


def label_openings(board: Board) -> None:
    """Label each opening inside it, or beside it where it is small."""
    for opening in board.wall.openings:
        text = _text(board, f"{opening.id} {opening.kind}", "text-quiet")
        box = board.box(opening.bounds)
        if not board.label(text, (*_inside(box), *beside(box, _size(text), board.em))):
            board.note(f"{opening.id} is the {opening_alt(opening).split(' ', 1)[1]}")


def _inside(box: Box) -> Iterator[Spot]:
    x, _ = box.centre
    for turned in (False, True):
        for step, share in enumerate((0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)):
            yield Spot(x, box.bottom + share * box.height, cost=0.05 * step + 0.6 * turned, turned=turned)


def draw_accessories(board: Board, accessories: Sequence[Accessory]) -> None:
    """Draw the accessories of this face, and dashed those behind it or out of sight."""
    for accessory in accessories:
        box = board.box(accessory.bounds)
        css = "accessory" if _plain(board, accessory) else "accessory-behind"
        alt = accessory_alt(accessory)
        board.add(
            "things", Area(css=css, part="accessories", name=accessory.id, alt=alt, rings=(corners_of(box),))
        )
        board.placer.block(box)


def _plain(board: Board, accessory: Accessory) -> bool:
    return accessory.visible and accessory.face == board.side


def label_accessories(board: Board, accessories: Sequence[Accessory]) -> None:
    """Label each accessory by id and kind; without room for that by id, without room for that below."""
    for accessory in accessories:
        box = board.box(accessory.bounds)
        words = _words(board, accessory)
        for line in (f"{accessory.id} {words}", accessory.id):
            text = _text(board, line, "text", name=accessory.id, bold=True)
            if board.label(text, _off_corners(board, box, text), dearest=9.0):
                break
        else:
            board.note(accessory_alt(accessory))


def _off_corners(board: Board, box: Box, text: Text) -> Iterator[Spot]:
    """Yield spots round an accessory, dearer where the name would stand closer to another one."""
    about = [board.box(one.bounds).grown(0.7 * board.em) for one in board.accessories]
    others = [other for other in about if not other.holds(box)]
    width, height = _size(text)
    for spot in beside(box, (width, height), board.em, sides=CORNERS_FIRST):
        near = around(spot.x, spot.y, width, height)
        yield spot._replace(cost=spot.cost + 1.2 * any(near.meets(other) for other in others))


def _words(board: Board, accessory: Accessory) -> str:
    words = kind_words(accessory.kind)
    if accessory.face != board.side:
        words += f", on the {accessory.face}"
    return words if accessory.visible else f"{words}, out of sight"


def draw_corners(board: Board) -> None:
    """Draw the corners that do not lie at an end of the wall."""
    face = board.wall.face(board.side)
    joints = [start for _, start in board.faces]
    for x in sorted({*face.internal_corners, *face.external_corners, *joints}):
        if 0.0 < x < board.wall.length:
            at, top = board.at(x), _top_at(board, x)
            board.add("things", Line(css="corner", part="corners", points=((at, 0.0), (at, top))))
            board.placer.avoid(((at, 0.0), (at, top)), 0.8)


def _top_at(board: Board, x: float) -> float:
    profile = board.wall.profile
    for (x0, y0), (x1, y1) in pairwise(profile):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return board.height


def draw_fixings(board: Board, fixings: tuple[Fixing, ...]) -> None:
    """Draw each fixing into this face as a cross with its id."""
    arm = 0.45 * board.em
    for fixing in fixings:
        x, y = board.at(fixing.x), fixing.y
        for dx, dy in ((arm, arm), (arm, -arm)):
            board.add(
                "marks",
                Line(
                    css="fixing", part="fixings", name=fixing.id, points=((x - dx, y - dy), (x + dx, y + dy))
                ),
            )
        cross = around(x, y, 2 * arm, 2 * arm)
        board.placer.block(cross)
        text = _text(board, f"{fixing.id} fixing", "text", name=fixing.id)
        if not board.label(text, beside(cross, _size(text), board.em), dearest=9.0):
            board.note(fixing_alt(fixing))


def _text(board: Board, words: str, css: str, *, name: str = "", bold: bool = False) -> Text:
    return Text(css=css, part="labels", name=name, text=words, x=0, y=0, size=board.em, bold=bold)


def _size(text: Text) -> tuple[float, float]:
    return text.box.width, text.box.height
