"""Routes: what meets the rules solid, what does not dashed and numbered, points by letter."""

from collections.abc import Iterator, Sequence
from functools import partial

from shapely import LineString

from zonelib.draw.board import Board
from zonelib.draw.contents import Contents
from zonelib.draw.placing import Spot, beside, nearest
from zonelib.draw.shapes import Box, Disc, Line, Point, Text, around
from zonelib.draw.stretches import Ends, Failure, clipped, line_of, remaining
from zonelib.draw.tracks import legs_on, place_on, void_line, voids_of
from zonelib.draw.words import failure_alt, route_alt
from zonelib.rules.legs import Leg
from zonelib.rules.words import letter
from zonelib.site.model import Route, other_side
from zonelib.site.tolerance import below

__all__ = ["draw_routes"]

ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
VOID = 0.7
"""How far above the ceiling or below the floor a way through a void is drawn [em]."""

LETTER_SIDES = (6, 7, 4, 5, 1, 2, 3, 0)


def _here(board: Board, failure: Failure) -> bool:
    """Tell whether a failure is shown on this face; that of the other face's zones is not."""
    return failure.finding.rule != "wall-zone" or failure.finding.where.face == board.side


def draw_routes(board: Board, contents: Contents) -> None:
    """Draw all routes, then their points, then the numbers of what fails on this face."""
    shown = [
        (route, [one for one in contents.failed_of(route) if _here(board, one)]) for route in contents.routes
    ]
    for route, failed in shown:
        _route(board, route, failed)
    if board.shows("points"):
        for route in contents.routes:
            _points(board, route, several=len(contents.routes) > 1)
    for route, failed in shown:
        _numbers(board, route, failed)
    _elsewhere(board, [one.n for one in contents.failed if not _here(board, one)])


def _elsewhere(board: Board, numbers: Sequence[int]) -> None:
    if numbers:
        which = f"Number {numbers[0]} lies" if len(numbers) == 1 else f"Numbers {_listed(numbers)} lie"
        board.note(f"{which} on the {other_side(board.side)} face: see the picture of that face.")


def _listed(numbers: Sequence[int]) -> str:
    return ", ".join(map(str, numbers[:-1])) + f" and {numbers[-1]}"


def _route(board: Board, route: Route, failed: Sequence[Failure]) -> None:
    """Draw a route, its failing stretches apart."""
    ends = [(failure, failure.ends) for failure in failed if failure.ends]
    legs = legs_on(route, board.wall, board.book)
    for leg in legs:
        for piece in remaining(leg.to_mm, [(0.0, leg.from_mm), *(pair for _, pair in ends)]):
            if leg.covered:
                words = board.book.pack.protections[leg.protection].words
                _line(board, route, line_of((leg,), piece), "covering", alt=f"In {words}.")
            _line(board, route, line_of((leg,), piece), _kind(board, leg), alt=route_alt(route))
    for void in voids_of(route, board.wall):
        _void(board, route, void_line(void, board.wall, VOID * board.em), void[2])
    drawn: list[Ends] = []
    for failure, (low, high) in ends:
        for free in remaining(high, [*drawn, (0.0, low)]):
            _line(board, route, line_of(legs, free), "cable-fails", alt=failure_alt(failure), n=failure.n)
        drawn.append((low, high))


def _void(board: Board, route: Route, points: tuple[Point, ...], via: str) -> None:
    line = tuple(board.point(point) for point in points)
    words = f"through the {via.replace('-', ' ')}"
    board.add("cables", Line(css="cable-void", part="routes", name=route.id, points=line, alt=f"{words}."))
    board.placer.avoid(line, 4.0)
    text = Text(css="text-quiet", part="routes", text=words, x=0, y=0, size=0.85 * board.em)
    (x0, high), (x1, _) = line[1], line[2]
    away = 0.75 * board.em * (1 if via == "ceiling-void" else -1)
    spots = (Spot(x0 + share * (x1 - x0), high + away, cost=0.01 * step) for step, share in enumerate(ALONG))
    if board.shows("labels") and not board.label(text, spots):
        board.note(f"Route {route.id} goes {words}.")


def _kind(board: Board, leg: Leg) -> str:
    """Return the class of a leg that meets the rules; one that is deep below this face is told apart."""
    return "cable" if below(leg.depth(board.side), board.book.pack.walls.trigger_depth) else "cable-deep"


def _line(board: Board, route: Route, way: LineString, css: str, *, alt: str, n: int | None = None) -> None:
    reach = board.reach
    line = LineString([board.point((x, y)) for x, y in way.coords])
    for piece in clipped(line, (reach.left, reach.bottom, reach.right, reach.top)):
        points = tuple((float(x), float(y)) for x, y in piece.coords)
        board.add("cables", Line(css=css, part="routes", name=route.id, points=points, alt=alt, n=n))
        board.placer.avoid(points, 4.0)


def _points(board: Board, route: Route, *, several: bool) -> None:
    """Draw the points of a route with their letters, the route's id before them where several are drawn."""
    radius = 0.24 * board.em
    inside = []
    for index, point in enumerate(route.points):
        x, y = board.point(place_on(point, board.wall))
        name = f"{route.id} {letter(index)}" if several else letter(index)
        disc = Disc(css="point", part="points", name=name, x=x, y=y, radius=radius)
        if board.reach.holds(around(x, y, 0, 0)):
            board.add("marks", disc)
            board.placer.block(disc.box)
            inside.append((name, disc.box))
        else:
            board.note(f"Point {name} lies outside this picture, at {point[0]:g}, {point[1]:g}.")
    for name, box in inside if board.shows("labels") else ():
        _letter(board, name, box)


def _letter(board: Board, name: str, box: Box) -> None:
    text = Text(css="text", part="points", name=name, text=name, x=0, y=0, size=board.em, bold=True)
    spots = beside(box, (text.box.width, text.box.height), board.em, sides=LETTER_SIDES)
    if not board.label(text, spots, dearest=12.0):
        x, y = box.centre
        board.note(f"Point {name} is at {board.at(x):g}, {y:g}.")


def _numbers(board: Board, route: Route, failed: Sequence[Failure]) -> None:
    """Put the number of each failure on its stretch, or beside the route's start where all of it fails."""
    for failure in failed:
        spots = _on_whole(board, route) if failure.ends is None else _on_stretch(board, route, failure.ends)
        text = Text(css="", text=str(failure.n), x=0, y=0, size=0.95 * board.em, bold=True)
        radius = max(0.72 * board.em, 0.55 * text.box.width)
        spot = board.placer.find(partial(_round_box, radius), spots)
        if spot:
            _number(board, failure, spot, radius)
        else:
            board.note(failure_alt(failure))


def _round_box(radius: float, spot: Spot) -> Box:
    return around(spot.x, spot.y, 2 * radius, 2 * radius)


def _number(board: Board, failure: Failure, spot: Spot, radius: float) -> None:
    whole = "-whole" if failure.ends is None else ""
    disc = Disc(
        css=f"number{whole}", part="findings", name=str(failure.n), x=spot.x, y=spot.y, radius=radius,
        n=failure.n, alt=failure_alt(failure),
    )  # fmt: skip
    text = Text(
        css=f"text-number{whole}", part="findings", text=str(failure.n), x=spot.x, y=spot.y,
        size=0.95 * board.em, bold=True,
    )  # fmt: skip
    if spot.target:
        points = (nearest(disc.box, spot.target), spot.target)
        board.add("marks", Line(css="leader", part="findings", points=points))
    board.add("labels", disc, text)


def _on_stretch(board: Board, route: Route, ends: Ends) -> Iterator[Spot]:
    line = line_of(legs_on(route, board.wall, board.book), ends)
    for step, share in enumerate(ALONG):
        point = line.interpolate(share, normalized=True)
        yield Spot(board.at(point.x), point.y, cost=-50.0 + 0.01 * step)
    middle = line.interpolate(0.5, normalized=True)
    yield from _round(board, (board.at(middle.x), middle.y))


def _on_whole(board: Board, route: Route) -> Iterator[Spot]:
    yield from _round(board, board.point(place_on(route.points[0], board.wall)))


def _round(board: Board, point: Point) -> Iterator[Spot]:
    x = min(max(point[0], board.reach.left), board.reach.right)
    y = min(max(point[1], board.reach.bottom), board.reach.top)
    thing = around(x, y, 0.0, 0.0)
    for spot in beside(thing, (2.2 * board.em, 2.2 * board.em), board.em):
        yield Spot(spot.x, spot.y, cost=spot.cost, target=(x, y))
