"""What a place on a wall lies between: edges of the wall, of zones, openings and accessories [mm]."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from zonelib.rules.pack import Pack
from zonelib.site.model import Accessory, Wall
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Crossed", "Edges", "Placed", "edges", "moved", "walls_xs", "walls_ys"]

Placed = tuple[tuple[Wall, float], ...]
"""Walls in a row, each with the x of its left end [mm]."""


class Crossed(Exception):
    """Two edges have changed places, so that nothing tells where an answer should go."""


@dataclass(frozen=True)
class Pair:
    """One edge before and after."""

    before: float
    after: float


@dataclass(frozen=True)
class Edges:
    """The edges of one room and of another, from low to high.

    Attributes
    ----------
    pairs : tuple of Pair
        Each edge, before and after.
    """

    pairs: tuple[Pair, ...]

    def moved(self, value: float) -> float:
        """Return where a value goes when each of its edges moves.

        On an edge it moves with it, between two it keeps its share of the way, to the whole millimetre.
        """
        at = bisect_left(self.pairs, value, key=_before)
        low, high = self.pairs[max(at - 1, 0)], self.pairs[min(at, len(self.pairs) - 1)]
        for one in (low, high):
            if abs(value - one.before) <= TOLERANCE:
                return round(one.after, 3)
        if low is high or not low.before < value < high.before:
            return value + low.after - low.before
        share = (value - low.before) / (high.before - low.before)
        return float(round(low.after + share * (high.after - low.after)))


def edges(before: Sequence[float], after: Sequence[float], *, strict: bool = True) -> Edges:
    """Return edges in order; of those that lie together, the one named first.

    Raises
    ------
    Crossed
        If two edges have changed places. Where it is not `strict`, the one named later is passed over.
    """
    kept: list[Pair] = []
    for pair in map(Pair, before, after):
        at = bisect_left(kept, pair.before, key=_before)
        below, above = kept[max(at - 1, 0) : at], kept[at : at + 1]
        if any(abs(pair.before - one.before) <= TOLERANCE for one in (*below, *above)):
            continue
        if all(one.after <= pair.after for one in below) and all(pair.after < one.after for one in above):
            kept.insert(at, pair)
        elif strict:
            raise Crossed("things change places")
    return Edges(tuple(kept))


def _before(pair: Pair) -> float:
    return pair.before


def moved(value: float, before: Sequence[float], after: Sequence[float], *, strict: bool = True) -> float:
    """Return where a value goes when each of its edges moves: once, for `edges` that are not kept."""
    return edges(before, after, strict=strict).moved(value)


def walls_xs(placed: Placed, pack: Pack, first: Sequence[str]) -> list[float]:
    """Return every x at which something begins, ends or has its middle, accessories in `first` first."""
    return [start + x for wall, start in placed for x in _wall_xs(wall, pack, first)]


def walls_ys(wall: Wall, top: float, pack: Pack, first: Sequence[str]) -> list[float]:
    """Return the same for the heights of a wall where its top is so high."""
    ys = [0.0, top, *(top - far for far in _reach(pack, "top", wall))]
    ys += [y for one in _accessories(wall, first) for y in (one.y, one.bounds[1], one.bounds[3])]
    ys += _reach(pack, "floor", wall)
    return ys + [y for one in wall.openings for y in (one.bounds[1], one.bounds[3])]


def _wall_xs(wall: Wall, pack: Pack, first: Sequence[str]) -> Iterator[float]:
    for one in _accessories(wall, first):
        yield from (one.x, one.bounds[0], one.bounds[2])
    yield from (0.0, wall.length)
    for face in (wall.front, wall.rear):
        for corner in (*face.internal_corners, *face.external_corners):
            yield from (
                corner,
                *(corner + sign * far for far in _reach(pack, "corner", wall) for sign in (-1, 1)),
            )
    for opening in wall.openings:
        left, _, right, _ = opening.bounds
        yield from (left, right)
        yield from (x for far in _reach(pack, opening.kind, wall) for x in (left - far, right + far))
    yield from (x for x, _ in wall.profile)


def _accessories(wall: Wall, first: Sequence[str]) -> list[Accessory]:
    return sorted(wall.accessories, key=lambda one: one.id not in first)


def _reach(pack: Pack, source: str, wall: Wall) -> list[float]:
    worktop = wall.front.worktop or wall.rear.worktop
    rules = (one for one in pack.zones if one.source == source and (worktop or not one.only_with))
    return [far for rule in rules for far in (rule.near, rule.far) if far]
