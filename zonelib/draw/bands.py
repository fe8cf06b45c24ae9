"""Zones: where a cable is expected, each with its reason, and those that do not serve this cable."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from zonelib.draw.board import Board, polygons
from zonelib.draw.placing import Spot
from zonelib.draw.shapes import Box, Dots, Text
from zonelib.draw.words import zone_words
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import Zone, zones
from zonelib.site.geometry import openings_area
from zonelib.site.model import Route

__all__ = ["draw_dots", "draw_zones", "label_others", "label_zones", "other_zones", "served_zones"]

SHARES = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.14, 0.86, 0.08, 0.92)
"""Where along a zone its label may stand, best first."""

PITCH = 0.8
"""Distance of the dots from each other [em]."""


def served_zones(board: Board, routes: Sequence[Route]) -> tuple[Zone, ...]:
    """Return the zones the drawn routes may use; every zone of the face where none is drawn."""
    joined = {name for route in routes for name in route.joins} if routes else None
    return _solid(board, _zones(board, board.book, joined))


def other_zones(board: Board, served: Sequence[Zone]) -> tuple[Zone, ...]:
    """Return the zones one who drills must expect although the drawn routes may not use them."""
    widest = replace(board.book, widest=True)
    known = {zone.source for zone in served} | {"top", "corner"}
    every = _zones(board, widest, None)
    return _solid(board, tuple(zone for zone in every if zone.source not in known))


def _zones(board: Board, book: Rulebook, joined: set[str] | None) -> tuple[Zone, ...]:
    """Return the zones of what is shown; in a row those that meet over a corner are one."""
    placed = [
        replace(zone, area=translate(zone.area, start))
        for wall, start in board.faces
        for zone in zones(wall, board.side, book, joined=joined)
    ]
    if len(board.faces) == 1:
        return tuple(placed)
    level = [zone for zone in placed if zone.form not in MERGED]
    return (*_merged(zone for zone in placed if zone.form in MERGED), *level)


MERGED = ("top", "floor", "corner")
LEVEL = ("horizontal", "floor")


def _merged(pieces: Iterable[Zone]) -> Iterator[Zone]:
    for _, group in groupby(sorted(pieces, key=lambda zone: zone.form), key=lambda zone: zone.form):
        same = list(group)
        for part in shapely.get_parts(shapely.union_all([zone.area for zone in same])):
            yield replace(same[0], area=part)


def _solid(board: Board, pieces: tuple[Zone, ...]) -> tuple[Zone, ...]:
    gaps = openings_area(board.wall)
    cut = (replace(zone, area=shapely.difference(zone.area, gaps)) for zone in pieces)
    return tuple(zone for zone in cut if not zone.area.is_empty)


def draw_zones(board: Board, served: Sequence[Zone], others: Sequence[Zone]) -> None:
    """Draw zones filled and edged, and the others as an outline."""
    board.zoned = shapely.union_all([board.area(zone.area) for zone in served])
    for zone in served:
        area = board.area(zone.area)
        alt = f"Zone: {zone_words(zone, board.book)}, {zone.reason} ({zone.clause})."
        board.fill("zones", "zone", area, part="zones", name=zone.source, alt=alt)
        board.fill("edges", "zone-edge", area, part="zones")
        _avoid(board, area)
    for zone in others:
        area = board.area(zone.area)
        alt = f"{zone.source}'s zone, {zone.reason}: not for this cable, expect one here."
        board.fill("edges", "other-zone", area, part="other-zones", name=zone.source, alt=alt)
        _avoid(board, area)


def _avoid(board: Board, area: BaseGeometry) -> None:
    for polygon in polygons(area):
        board.placer.avoid([(float(x), float(y)) for x, y in polygon.exterior.coords], 0.3)


def draw_dots(board: Board, served: Sequence[Zone]) -> None:
    """Fill the zones with sparse dots, but not behind a label."""
    if not served:
        return
    area = board.zoned.buffer(-0.15 * board.em)
    pitch = PITCH * board.em
    rows = np.arange(pitch / 2, board.height, pitch / 2)
    columns = np.arange(pitch / 2, board.wall.length, pitch)
    x, y = np.meshgrid(columns, rows)
    x = x + np.where(np.arange(len(rows)) % 2, pitch / 2, 0.0)[:, None]
    inside = shapely.contains_xy(area, x, y)
    for box in board.placer.taken:
        inside &= ~((box.left < x) & (x < box.right) & (box.bottom < y) & (y < box.top))
    points = tuple(zip(x[inside].round(1).tolist(), y[inside].round(1).tolist(), strict=True))
    if points:
        board.add("dots", Dots(css="dots", part="zones", points=points))


def label_zones(board: Board, served: Sequence[Zone], routes: Sequence[Route]) -> None:
    """Label each zone with its reason; a note stands for a label without room."""
    for zone in served:
        words = zone_words(zone, board.book) + _whose(zone, routes)
        text = _text(board, words, "text-zone")
        if not board.label(text, _spots(board, zone, text), dearest=9.0):
            board.note(f"Zone without room for its label: {words}.")


def _whose(zone: Zone, routes: Sequence[Route]) -> str:
    users = [route.id for route in routes if zone.source in route.joins]
    return "" if len(users) in (0, len(routes)) else f" · for {', '.join(users)}"


def label_others(board: Board, others: Sequence[Zone], routes: Sequence[Route]) -> None:
    """Say in each strip that it does not serve this cable; in full once for each accessory."""
    cable = "these cables" if len(routes) > 1 else "this cable"
    said: set[str] = set()
    for zone in sorted(others, key=lambda zone: zone.form):
        owner = f"{zone.source}'s zone"
        full = f"{owner}: not for {cable}, expect one here" if routes else f"{owner}: expect a cable here"
        variants = (owner,) if zone.source in said else (full, f"{owner}: not for {cable}", owner)
        for words in variants:
            text = _text(board, words, "text-other", size=0.85)
            if board.label(text, _spots(board, zone, text), dearest=3.0):
                said.add(zone.source)
                break
    for source in dict.fromkeys(zone.source for zone in others):
        if source not in said:
            board.note(f"{source}'s zone, outlined: not for {cable}, expect one here.")


def _text(board: Board, words: str, css: str, *, size: float = 0.92) -> Text:
    return Text(css=css, part="zones", text=words, x=0, y=0, size=size * board.em)


def _spots(board: Board, zone: Zone, text: Text) -> Iterator[Spot]:
    """Yield spots along each piece of a zone, in its middle first, then beside it."""
    area = board.area(zone.area)
    if zone.form == "top":
        left, _, right, _ = area.bounds
        yield from (spot for spot in _under_top(board, text) if left <= spot.x <= right)
        return
    pieces = sorted(polygons(area), key=lambda polygon: -polygon.area)
    for rank, polygon in enumerate(pieces):
        yield from _along(Box(*polygon.bounds), text, upright=zone.form not in LEVEL, cost=0.1 * rank)
    if zone.form in LEVEL:
        yield _off_wall(
            board, max((Box(*polygon.bounds) for polygon in pieces), key=lambda box: box.right), text
        )


def _along(box: Box, text: Text, *, upright: bool, cost: float) -> Iterator[Spot]:
    long, tall = text.box.width, text.box.height
    room, across = (box.height, box.width) if upright else (box.width, box.height)
    tight = 1.5 if long > room else 0.0
    for aside in (0.0, (across + tall) / 2, -(across + tall) / 2):
        for step, share in enumerate(SHARES):
            dear = cost + tight + 0.03 * step + (0.8 if aside else 0.0)
            along = box.bottom + share * box.height if upright else box.left + share * box.width
            x, y = box.centre
            yield Spot(x + aside, along, dear, turned=True) if upright else Spot(along, y + aside, dear)


def _off_wall(board: Board, box: Box, text: Text) -> Spot:
    """Return the spot right of a narrow wall, with a line to where the strip ends."""
    x = board.reach.right + 1.2 * board.em + text.box.width / 2
    return Spot(x, box.centre[1], cost=1.0, target=(box.right, box.centre[1]))


def _under_top(board: Board, text: Text) -> Iterator[Spot]:
    """Yield spots in the band below the top, level stretches and slopes alike."""
    far = next((rule.far for rule in board.book.pack.zones if rule.source == "top"), None) or text.box.height
    profile = [board.point(point) for point in board.wall.profile]
    for rank, (start, end) in enumerate(pairwise(profile)):
        for step, share in enumerate(SHARES):
            x, y = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
            for down, cost in ((far / 2, 0.0), (far + text.box.height, 1.0)):
                yield Spot(x, y - down, cost + 0.03 * step + 0.05 * rank)
