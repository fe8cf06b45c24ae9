"""What a place on a wall lies between: edges of the wall, of zones, openings and accessories [mm]."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from zonelib.rules.pack import Pack
from zonelib.site.geometry import height_at
from zonelib.site.model import Accessory, Wall
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Crossed", "Placed", "moved", "walls_xs", "walls_ys"]

Placed = tuple[tuple[Wall, float], ...]
"""Walls in a row, each with the x of its left end [mm]."""


class Crossed(Exception):
    """Two edges have changed places, so that nothing tells where an answer should go."""


@dataclass(frozen=True)
class Pair:
    """One edge before and after."""

    before: float
    after: float


def moved(value: float, before: Sequence[float], after: Sequence[float], *, strict: bool = True) -> float:
    """Return where a value goes when each of its edges moves.

    On an edge it moves with it, between two it keeps its share of the way, to the whole millimetre.

    Raises
    ------
    Crossed
        If two edges have changed places. Where it is not `strict`, the one named later is passed over.
    """
    pairs = _in_order(before, after, strict=strict)
    for one in pairs:
        if abs(value - one.before) <= TOLERANCE:
            return round(one.after, 3)
    low = max((one for one in pairs if one.before < value), key=lambda one: one.before, default=pairs[0])
    high = min((one for one in pairs if one.before > value), key=lambda one: one.before, default=pairs[-1])
    if low is high or low.before > value or high.before < value:
        return value + low.after - low.before
    share = (value - low.before) / (high.before - low.before)
    return float(round(low.after + share * (high.after - low.after)))


def _in_order(before: Sequence[float], after: Sequence[float], *, strict: bool) -> list[Pair]:
    """Return the edges from low to high; of those that lie together, the one named first."""
    kept: list[Pair] = []
    for pair in map(Pair, before, after):
        if any(abs(pair.before - one.before) <= TOLERANCE for one in kept):
            continue
        if all((pair.before < one.before) == (pair.after < one.after) for one in kept):
            kept.append(pair)
        elif strict:
            raise Crossed("things change places")
    return sorted(kept, key=lambda one: one.before)


def walls_xs(placed: Placed, pack: Pack, first: Sequence[str]) -> list[float]:
    """Return every x at which something begins, ends or has its middle, accessories in `first` first."""
    return [start + x for wall, start in placed for x in _wall_xs(wall, pack, first)]


def walls_ys(wall: Wall, x: float, pack: Pack, first: Sequence[str]) -> list[float]:
    """Return the same for the heights of a wall at one of its x."""
    top = height_at(wall, x)
    ys = [0.0, top, *(top - far for far in _reach(pack, "top")), *_reach(pack, "floor")]
    ys += [y for one in _accessories(wall, first) for y in (one.y, one.bounds[1], one.bounds[3])]
    return ys + [y for one in wall.openings for y in (one.bounds[1], one.bounds[3])]


def _wall_xs(wall: Wall, pack: Pack, first: Sequence[str]) -> Iterator[float]:
    for one in _accessories(wall, first):
        yield from (one.x, one.bounds[0], one.bounds[2])
    yield from (0.0, wall.length)
    for face in (wall.front, wall.rear):
        for corner in (*face.internal_corners, *face.external_corners):
            yield from (corner, *(corner + sign * far for far in _reach(pack, "corner") for sign in (-1, 1)))
    yield from (x for one in wall.openings for x in (one.bounds[0], one.bounds[2]))
    yield from (x for x, _ in wall.profile)


def _accessories(wall: Wall, first: Sequence[str]) -> list[Accessory]:
    return sorted(wall.accessories, key=lambda one: one.id not in first)


def _reach(pack: Pack, source: str) -> list[float]:
    return [far for rule in pack.zones if rule.source == source for far in (rule.near, rule.far) if far]
