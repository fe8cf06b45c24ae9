"""Build the scene of one face of a wall from a case and what was found."""

from collections.abc import Collection, Sequence

from zonelib.draw.bands import draw_dots, draw_zones, label_others, label_zones, other_zones, served_zones
from zonelib.draw.board import Board
from zonelib.draw.cables import draw_numbers, draw_points, draw_route, here
from zonelib.draw.captions import Margin, draw_foot, draw_head
from zonelib.draw.placing import Placer
from zonelib.draw.rulers import ACROSS, draw_rulers, margin_of
from zonelib.draw.scene import EVERY_PART, Scene
from zonelib.draw.shapes import Area, Box
from zonelib.draw.stretches import Failure, failures
from zonelib.draw.things import (
    draw_accessories, draw_corners, draw_fixings, draw_openings, draw_outline, label_accessories, label_openings,
)  # fmt: skip
from zonelib.draw.words import description, subtitle, title, zone_words
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import Zone
from zonelib.site.model import Case, Route, Side, Wall

__all__ = ["wall_scene"]

EM_PX = 13.0
"""Text size at real size [CSS px]."""

NARROWEST = 46.0
"""Title, legend and safety words need this width, however narrow the wall [em]."""

HEADROOM = 1.8
"""Room above the wall for labels [em]."""

Failed = list[tuple[Route, tuple[Failure, ...]]]


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
    drawn = [route for route in case.routes if route.wall == wall and (routes is None or route.id in routes)]
    board = _board(case, case.wall(wall), face, pack, routes=drawn, show=show)
    failed: Failed = [(route, failures(route, findings)) for route in drawn]
    zones = served_zones(board, drawn) if board.shows("zones") else ()
    others = other_zones(board, zones) if board.shows("other-zones") and board.shows("zones") else ()
    _draw(board, case, drawn, failed, zones, others)
    view = _frame(board, pack, drawn)
    return Scene(
        wall=wall, face=face, length=board.wall.length, height=board.height, em=board.em, scale=board.scale,
        view=view, title=title(board.wall, face), description=_described(board, drawn, failed, zones, others),
        shapes=board.shapes, notes=tuple(board.notes),
    )  # fmt: skip


def _board(
    case: Case, wall: Wall, side: Side, pack: Pack, *, routes: Sequence[Route], show: Collection[str]
) -> Board:
    height = max(y for _, y in wall.profile)
    scale = max(min(wall.length / 860, 5.0), wall.length / 1500, height / 560, 0.5)
    em = EM_PX * scale
    reach = _reach(wall, side, routes if "routes" in show else ())
    right = max(reach.right + 2.5 * em, reach.left + (NARROWEST - ACROSS) * em)
    stage = Box(reach.left, reach.bottom, right, reach.top + HEADROOM * em)
    return Board(wall, side, Rulebook(pack, case.readings), frozenset(show), em, scale, reach, Placer(stage))


def _reach(wall: Wall, side: Side, routes: Sequence[Route]) -> Box:
    """Return the box of wall and routes; a point far off the wall is left out of it [mm]."""
    height = max(y for _, y in wall.profile)
    points = [point for route in routes for point in route.points]
    xs = [x if side == "front" else wall.length - x for x, _ in points]
    far_x, far_y = 0.2 * wall.length, 0.2 * height
    left = max(min([0.0, *xs]), -far_x)
    right = min(max([wall.length, *xs]), wall.length + far_x)
    bottom = max(min([0.0, *(y for _, y in points)]), -far_y)
    return Box(left, bottom, right, min(max([height, *(y for _, y in points)]), height + far_y))


def _draw(
    board: Board, case: Case, routes: Sequence[Route], failed: Failed, zones: Sequence[Zone], others: Sequence[Zone]
) -> None:
    draw_outline(board)
    draw_zones(board, zones, others)
    draw_openings(board)
    draw_corners(board)
    if board.shows("accessories"):
        draw_accessories(board)
    if board.shows("routes"):
        _draw_routes(board, routes, failed)
    if board.shows("fixings"):
        here_fixed = [one for one in case.fixings if one.wall == board.wall.id and one.face == board.side]
        draw_fixings(board, tuple(here_fixed))
    if board.shows("labels"):
        _label(board, routes, zones, others)
    draw_dots(board, zones)


def _draw_routes(board: Board, routes: Sequence[Route], failed: Failed) -> None:
    shown = [(route, tuple(one for one in every if here(board, one))) for route, every in failed]
    for route, some in shown:
        draw_route(board, route, some if board.shows("findings") else ())
    if board.shows("points"):
        for route in routes:
            draw_points(board, route, several=len(routes) > 1)
    for route, some in shown if board.shows("findings") else ():
        draw_numbers(board, route, some)
    if board.shows("findings"):
        _elsewhere(board, [one.n for _, every in failed for one in every if not here(board, one)])


def _elsewhere(board: Board, numbers: Sequence[int]) -> None:
    if numbers:
        other = "rear" if board.side == "front" else "front"
        which = f"Number {numbers[0]} lies" if len(numbers) == 1 else f"Numbers {_listed(numbers)} lie"
        board.note(f"{which} on the {other} face: see the picture of that face.")


def _listed(numbers: Sequence[int]) -> str:
    return ", ".join(map(str, numbers[:-1])) + f" and {numbers[-1]}"


def _label(board: Board, routes: Sequence[Route], zones: Sequence[Zone], others: Sequence[Zone]) -> None:
    if board.shows("accessories"):
        label_accessories(board)
    label_zones(board, zones, routes)
    label_openings(board)
    label_others(board, others, routes)


def _frame(board: Board, pack: Pack, routes: Sequence[Route]) -> Box:
    """Draw what stands round the face, and return the paper [mm]."""
    em = board.em
    if board.shows("dimensions"):
        draw_rulers(board)
    room = margin_of(board)
    high = max([board.reach.top + 0.5 * em, *(box.top for box in board.placer.taken)])
    margin = Margin(min(room.left, board.reach.left - em), max(board.placer.stage.right, room.right), high)
    if board.shows("title"):
        draw_head(board, margin, title(board.wall, board.side), subtitle(board.wall, routes, pack))
    top, margin.y = margin.y, room.bottom - 0.6 * em
    draw_foot(board, margin, pack)
    view = Box(margin.left - 0.8 * em, margin.y - 0.8 * em, margin.right + 0.8 * em, top + 0.8 * em)
    corners = ((view.left, view.bottom), (view.right, view.bottom), (view.right, view.top), (view.left, view.top))
    board.layers["ground"].insert(0, Area(css="paper", part="paper", rings=(corners,)))
    return view


def _described(
    board: Board, routes: Sequence[Route], failed: Failed, zones: Sequence[Zone], others: Sequence[Zone]
) -> str:
    shown = [one for one in board.wall.accessories if one.visible or board.shows("hidden")]
    words = [f"{zone_words(zone, board.book)}, {zone.reason}" for zone in zones]
    return description(
        board.wall, board.side, zones=words, others=list(dict.fromkeys(zone.source for zone in others)),
        routes=routes if board.shows("routes") else (),
        failed=[one for _, some in failed for one in some] if board.shows("findings") else (),
        accessories=shown if board.shows("accessories") else (),
    )  # fmt: skip
