"""Stretches of one line: unions, overlaps and what is left over."""

from collections.abc import Iterable, Sequence

__all__ = ["Span", "length", "less", "shared", "union", "widened"]

Span = tuple[float, float]


def union(spans: Iterable[Span], *, gap: float = 0.0) -> list[Span]:
    """Return stretches as few that do not overlap; a gap no larger than the one given is closed.

    >>> union([(5.0, 9.0), (0.0, 5.0), (20.0, 30.0)])
    [(0.0, 9.0), (20.0, 30.0)]
    """
    whole: list[Span] = []
    for low, high in sorted(spans):
        if whole and low <= whole[-1][1] + gap:
            whole[-1] = (whole[-1][0], max(whole[-1][1], high))
        elif high > low:
            whole.append((low, high))
    return whole


def shared(ones: Iterable[Span], others: Sequence[Span]) -> float:
    """Return the length that two sets of stretches share; each must be a union [mm].

    >>> shared([(0.0, 10.0)], [(5.0, 6.0), (9.0, 20.0)])
    2.0
    """
    pairs = ((one, other) for one in ones for other in others)
    return sum(max(0.0, min(a[1], b[1]) - max(a[0], b[0])) for a, b in pairs)


def less(ones: Iterable[Span], others: Sequence[Span]) -> list[Span]:
    """Return what is left of stretches when others are taken out.

    >>> less([(0.0, 10.0)], [(2.0, 4.0)])
    [(0.0, 2.0), (4.0, 10.0)]
    """
    left = list(ones)
    for low, high in others:
        pieces = [piece for a, b in left for piece in ((a, min(b, low)), (max(a, high), b))]
        left = sorted({(a, b) for a, b in pieces if b > a})
    return left


def widened(span: Span, by: float) -> Span:
    """Return a stretch that is longer at both ends, or shorter; never turned over."""
    low, high = span[0] - by, span[1] + by
    middle = (span[0] + span[1]) / 2
    return (low, high) if high > low else (middle, middle)


def length(spans: Iterable[Span]) -> float:
    """Return the length of stretches that do not overlap [mm]."""
    return sum(high - low for low, high in spans)
