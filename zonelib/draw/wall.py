"""Build the scene of one face of a wall from a case and what was found."""

from collections.abc import Collection, Sequence

from zonelib.draw.bands import draw_dots, draw_zones, label_others, label_zones
from zonelib.draw.board import Board
from zonelib.draw.cables import draw_routes
from zonelib.draw.captions import Margin, draw_foot, draw_head
from zonelib.draw.contents import Contents, contents_of
from zonelib.draw.describe import description
from zonelib.draw.placing import Placer
from zonelib.draw.printing import EM_PX, text_scale
from zonelib.draw.rulers import ACROSS, draw_rulers, margin_of
from zonelib.draw.scene import EVERY_PART, Scene
from zonelib.draw.shapes import Area, Box, corners_of
from zonelib.draw.things import (
    draw_accessories,
    draw_corners,
    draw_fixings,
    draw_openings,
    draw_outline,
    label_accessories,
    label_openings,
    label_walls,
)
from zonelib.draw.tracks import place_on, routes_in
from zonelib.draw.words import subtitle, title
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Case, Route, Side, Wall
from zonelib.site.ring import ring_of
from zonelib.site.row import row_of

__all__ = ["room_scene", "wall_scene"]

NARROWEST = 46.0
"""Title, legend and safety words need this width, however narrow the wall [em]."""

HEADROOM = 1.8
"""Room above the wall for labels [em]."""

OVER_VOID = 3.2
"""The same where a cable is drawn there, in the void [em]."""


def wall_scene(
    case: Case, wall: str, face: Side, pack: Pack, *, findings: Sequence[Finding] = (),
    routes: Collection[str] | None = None, show: Collection[str] = EVERY_PART,
) -> Scene:  # fmt: skip
    """Return the drawing of one face of a wall.

    Parameters
    ----------
    case : Case
        What is there.
    wall : str
        Id of the wall.
    face : {"front", "rear"}
        The face to draw; the rear is drawn mirrored.
    pack : Pack
        The rules that give the zones.
    findings : sequence of Finding
        What the engine found. Failing stretches are numbered by their order among all failed findings given.
    routes : collection of str, optional
        Ids of the routes to draw; by default every route on the wall.
    show : collection of str
        Parts to draw, of `EVERY_PART`.

    Returns
    -------
    Scene
        In millimetres, x as drawn, y upwards from the floor.
    """
    return _scene(case, case.wall(wall), face, pack, findings=findings, routes=routes, show=show)


def room_scene(
    case: Case, room: str, pack: Pack, *, findings: Sequence[Finding] = (),
    routes: Collection[str] | None = None, show: Collection[str] = EVERY_PART,
) -> Scene:  # fmt: skip
    """Return the drawing of a room unfolded: the inner face of each wall, side by side.

    Parameters are those of `wall_scene`, and `room` is the id of the room. A route's x is the drawing's.
    """
    row = row_of(ring_of(case, room))
    return _scene(case, row, "front", pack, findings=findings, routes=routes, show=show)


def _scene(
    case: Case, wall: Wall, face: Side, pack: Pack, *, findings: Sequence[Finding],
    routes: Collection[str] | None, show: Collection[str],
) -> Scene:  # fmt: skip
    drawn = [route for route in routes_in(case, wall) if routes is None or route.id in routes]
    board = _board(case, wall, face, pack, routes=drawn, show=show)
    contents = contents_of(board, case, drawn, findings)
    _draw(board, contents)
    view = _frame(board, pack, drawn)
    words = description(board.wall, face, board.book, contents)
    return Scene(
        wall=wall.id, face=face, length=board.wall.length, height=board.height, em=board.em,
        scale=board.scale, view=view, title=title(board.wall, face), description=words,
        shapes=board.shapes, notes=tuple(board.notes),
    )  # fmt: skip


def _board(
    case: Case, wall: Wall, side: Side, pack: Pack, *, routes: Sequence[Route], show: Collection[str]
) -> Board:
    height = max(y for _, y in wall.profile)
    scale = text_scale(max(min(wall.length / 860, 5.0), wall.length / 1500, height / 560, 0.5))
    em = EM_PX * scale
    reach = _reach(wall, side, routes if "routes" in show else ())
    right = max(reach.right + 2.5 * em, reach.left + (NARROWEST - ACROSS) * em)
    over = any(via != "wall" for route in routes for via in route.via)
    stage = Box(reach.left, reach.bottom, right, reach.top + (OVER_VOID if over else HEADROOM) * em)
    return Board(wall, side, Rulebook(pack, case.readings), frozenset(show), em, scale, reach, Placer(stage))


def _reach(wall: Wall, side: Side, routes: Sequence[Route]) -> Box:
    """Return the box of wall and routes; a point far off the wall is left out of it [mm]."""
    height = max(y for _, y in wall.profile)
    points = [place_on(point, wall) for route in routes for point in route.points]
    xs = [x if side == "front" else wall.length - x for x, _ in points]
    far_x, far_y = 0.2 * wall.length, 0.2 * height
    left = max(min([0.0, *xs]), -far_x)
    right = min(max([wall.length, *xs]), wall.length + far_x)
    bottom = max(min([0.0, *(y for _, y in points)]), -far_y)
    return Box(left, bottom, right, min(max([height, *(y for _, y in points)]), height + far_y))


def _draw(board: Board, contents: Contents) -> None:
    draw_outline(board)
    draw_zones(board, contents.zones, contents.others)
    draw_openings(board)
    draw_corners(board)
    draw_accessories(board, contents.accessories)
    draw_routes(board, contents)
    draw_fixings(board, contents.fixings)
    if board.shows("labels"):
        label_walls(board)
        label_accessories(board, contents.accessories)
        label_zones(board, contents.zones, contents.routes)
        label_openings(board)
        label_others(board, contents.others, contents.routes)
    draw_dots(board, contents.zones)


def _frame(board: Board, pack: Pack, routes: Sequence[Route]) -> Box:
    """Draw what stands round the face, and return the paper [mm]."""
    em = board.em
    if board.shows("dimensions"):
        draw_rulers(board)
    room = margin_of(board)
    high = max([board.reach.top + 0.9 * em, *(box.top for box in board.placer.taken)])
    margin = Margin(min(room.left, board.reach.left - em), max(board.placer.stage.right, room.right), high)
    if board.shows("title"):
        draw_head(board, margin, title(board.wall, board.side), subtitle(board.wall, routes, pack))
    top, margin.y = margin.y, room.bottom - 0.6 * em
    draw_foot(board, margin, pack)
    view = Box(margin.left - 0.8 * em, margin.y - 0.8 * em, margin.right + 0.8 * em, top + 0.8 * em)
    corners = corners_of(view)
    board.layers["ground"].insert(0, Area(css="paper", part="paper", rings=(corners,)))
    return view
