"""Pairs worth weighing among those who share something, without looking at every pair of a crowd."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, islice

__all__ = ["close_pairs"]

MOST = 64
"""Among so many every pair is looked at; a larger crowd is parted by what else its members share."""

DEEPEST = 3
"""So often a crowd is parted."""

Pair = tuple[str, str]


def close_pairs(groups: Sequence[Sequence[str]]) -> list[Pair]:
    """Return pairs of names that share a group, each once and in order.

    Of a crowd, which would give a pair for each two of its members, those are returned that share most.

    Parameters
    ----------
    groups : sequence of sequence of str
        For each thing that is shared the names of those who share it.

    Examples
    --------
    >>> close_pairs([["b", "a"], ["a", "b", "c"]])
    [('a', 'b'), ('a', 'c'), ('b', 'c')]
    """
    places: dict[str, list[int]] = defaultdict(list)
    for at, group in enumerate(groups):
        for name in set(group):
            places[name].append(at)
    found = (
        pair for at, group in enumerate(groups) for pair in _among(sorted(set(group)), at, places, DEEPEST)
    )
    return sorted(set(found))


def _among(names: Sequence[str], at: int, places: Mapping[str, Sequence[int]], deeper: int) -> Iterator[Pair]:
    if len(names) <= MOST:
        yield from combinations(names, 2)
        return
    yield from islice(combinations(names, 2), MOST)
    parts: dict[int, list[str]] = defaultdict(list)
    for name in names if deeper else ():
        for place in places[name]:
            if place > at:
                parts[place].append(name)
    for place, part in parts.items():
        yield from _among(part, place, places, deeper - 1)
