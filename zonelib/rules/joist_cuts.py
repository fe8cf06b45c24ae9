"""Holes and notches in a joist that a rule of thumb allows to be cut: how large, and where."""

from collections.abc import Iterator
from itertools import combinations

from zonelib.rules.finding import Finding
from zonelib.rules.joist_bench import JoistBench
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, mm
from zonelib.site.timber import Hole, Notch
from zonelib.site.tolerance import above, below

__all__ = ["judge_cuts"]

Shares = tuple[float | None, float | None]


def judge_cuts(bench: JoistBench) -> Iterator[Finding]:
    """Judge every hole and notch, each alone and then with the others.

    A rule that every pack may state is not applicable where this one states no limit. Two rules are
    asked for by few packs, and are passed over by the others: ``joist-hole-edge``, ``joist-notch-length``.
    """
    joist = bench.joist
    for hole in joist.holes:
        yield from _hole(bench, hole)
    yield from (_spacing(bench, one, other) for one, other in combinations(joist.holes, 2))
    for notch in joist.notches:
        yield from _notch(bench, notch)
        yield from (_gap(bench, notch, hole) for hole in joist.holes)


def _hole(bench: JoistBench, hole: Hole) -> Iterator[Finding]:
    joist, limits = bench.joist, bench.limits.hole
    size = Measure(hole.diameter, limits.diameter * joist.depth)
    yield bench.compare("joist-hole-size", ("large", "within"), size, subject=hole.id, depth=mm(joist.depth))
    near = bench.from_support(hole.x)
    yield _position(bench, "joist-hole-position", hole.id, (near, near), (limits.start, limits.to))
    if limits.off_centre is None:
        yield bench.unlimited("joist-hole-centre", subject=hole.id)
    else:
        off = Measure(abs(hole.y - joist.depth / 2), limits.off_centre)
        yield bench.compare("joist-hole-centre", ("off", "on"), off, subject=hole.id)
    if limits.edge is not None:
        outcomes = ("near", "clear")
        yield bench.left_over("joist-hole-edge", outcomes, bench.covers(hole), limits.edge, subject=hole.id)


def _position(
    bench: JoistBench, rule: str, subject: str, cut: tuple[float, float], shares: Shares
) -> Finding:
    """Judge whether a cut lies wholly within a stretch measured from the nearest support [mm]."""
    span = bench.joist.span
    low, high = (None if share is None else share * span for share in shares)
    if low is None and high is None:
        return bench.unlimited(rule, subject=subject)
    outcome, measure = _binding(cut, low, high)
    return bench.compare(
        rule, (outcome, "within"), measure, subject=subject,
        low=mm(low or 0.0, places=3), high=mm(span / 2 if high is None else high, places=3),
    )  # fmt: skip


def _binding(cut: tuple[float, float], low: float | None, high: float | None) -> tuple[str, Measure]:
    """Return the end of the stretch that the cut breaks, or the nearer support's where it breaks none."""
    near, far = cut
    if low is not None and (high is None or below(near, low) or not above(far, high)):
        return "near", Measure(near, low, ">=")
    return "far", Measure(far, high, "<=")


def _spacing(bench: JoistBench, one: Hole, other: Hole) -> Finding:
    """Judge the distance of two holes, by diameters from centre to centre or clear from edge to edge."""
    times, clear = bench.limits.hole.spacing, bench.limits.hole.clear_of_holes
    if times is not None:
        apart = Measure(abs(one.x - other.x), times * max(one.diameter, other.diameter), ">=")
        return bench.compare(
            "joist-hole-spacing", ("close", "apart"), apart, subject=one.id, other=other.id, times=mm(times)
        )
    if clear is None:
        return bench.unlimited("joist-hole-spacing", subject=one.id, other=other.id)
    gap = bench.between_holes(one, other)
    return bench.compare(
        "joist-hole-spacing", ("overlap" if gap < 0 else "close-edges", "clear-edges"),
        Measure(gap, clear, ">="), subject=one.id, other=other.id, overlap=beside(-gap, 0.0),
    )  # fmt: skip


def _notch(bench: JoistBench, notch: Notch) -> Iterator[Finding]:
    limits, depth = bench.limits.notch, bench.joist.depth
    near, far = _reach(bench, notch)
    share = limits.depth if limits.end_depth is None or above(near, 0.0) else limits.end_depth
    deep = Measure(notch.depth, share * depth)
    yield bench.compare("joist-notch-depth", ("deep", "within"), deep, subject=notch.id, depth=mm(depth))
    if limits.length is not None:
        long = Measure(notch.length, limits.length * depth)
        outcomes = ("long", "within")
        yield bench.compare("joist-notch-length", outcomes, long, subject=notch.id, depth=mm(depth))
    yield _position(bench, "joist-notch-position", notch.id, (near, far), (limits.start, limits.to))
    allowed = notch.edge in limits.edges
    yield bench.say(
        "joist-notch-edge", "allowed" if allowed else "other", "pass" if allowed else "fail",
        subject=notch.id, edge=notch.edge, allowed=" or ".join(limits.edges),
    )  # fmt: skip


def _reach(bench: JoistBench, notch: Notch) -> tuple[float, float]:
    """Return the near and the far end of a notch, from the support its middle is nearest to [mm]."""
    middle, half = bench.from_support(notch.x), notch.length / 2
    return middle - half, middle + half


def _gap(bench: JoistBench, notch: Notch, hole: Hole) -> Finding:
    clear = bench.limits.notch.clear_of_holes
    if clear is None:
        return bench.unlimited("joist-notch-gap", subject=notch.id, other=hole.id)
    gap = bench.between(notch, hole)
    return bench.compare(
        "joist-notch-gap", ("overlap" if gap < 0 else "close", "apart"), Measure(gap, clear, ">="),
        subject=notch.id, other=hole.id, overlap=beside(-gap, 0.0),
    )  # fmt: skip
