"""Joists: the electrician's cover, and what a builder allows to be cut."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from zonelib.rules.finding import Finding, Operator, Place, Status
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure, finding
from zonelib.rules.timber_limits import JoistLimits
from zonelib.rules.words import beside, mm
from zonelib.site.timber import Hole, Joist, Notch
from zonelib.site.tolerance import above, below

__all__ = ["judge_joist"]


@dataclass(frozen=True)
class _Bench:
    """One joist with the limits that apply to it."""

    joist: Joist
    limits: JoistLimits
    book: Rulebook

    def say(
        self, rule: str, outcome: str, status: Status, *, subject: str, other: str | None = None,
        clause: str = "", measure: Measure | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        where = Place(joist=self.joist.id, other=other)
        return finding(
            self.book, rule, outcome, status, subject=subject, where=where,
            clause=clause or self.limits.clause, measure=measure, joist=self.joist.id, other=other, **facts,
        )  # fmt: skip

    def compare(
        self, rule: str, outcomes: tuple[str, str], measure: Measure, *, subject: str,
        other: str | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        """Return a pass or a fail, by the measure's own operator; outcomes are (fail, pass)."""
        measured, limit = measure.measured or 0.0, measure.limit or 0.0
        fails = above(measured, limit) if measure.operator == "<=" else below(measured, limit)
        said: dict[str, Any] = {"measured": beside(measured, limit), "limit": mm(limit, places=3), **facts}
        return self.say(
            rule, outcomes[0] if fails else outcomes[1], "fail" if fails else "pass", subject=subject,
            other=other, measure=measure, **said,
        )  # fmt: skip


def judge_joist(joist: Joist, book: Rulebook) -> Iterator[Finding]:
    """Judge all that is cut in a joist; a pack without limits for joists yields nothing."""
    limits = book.pack.joists
    if limits is None:
        return
    bench = _Bench(joist, limits, book)
    yield from (_hole_cover(bench, hole) for hole in joist.holes)
    yield from (_notch_cover(bench, notch) for notch in joist.notches)
    kind = _kind(bench)
    yield kind
    yield from _uncut_by_rule(bench) if kind.status == "fail" else _structure(bench)


def _hole_cover(bench: _Bench, hole: Hole) -> Finding:
    """Judge the timber left over a hole.

    A cable may rest on the hole's bottom or press against its top, so measuring to the cable
    gives the same cover as measuring to the hole's edge: the reading changes the words, not the verdict.
    """
    if bench.book.counts(hole.protection):
        return _covered(bench, hole)
    covers = {"bottom": hole.y - hole.diameter / 2, "top": bench.joist.depth - hole.y - hole.diameter / 2}
    edge = min(covers, key=lambda name: covers[name])
    cover, limit = covers[edge], bench.limits.cover
    thin = below(cover, limit)
    return bench.say(
        "joist-cover", "thin" if thin else "enough", "fail" if thin else "pass", subject=hole.id,
        clause=bench.limits.cover_clause, measure=Measure(cover, limit, ">="),
        measured=beside(cover, limit), limit=mm(limit), edge=edge,
    )  # fmt: skip


def _notch_cover(bench: _Bench, notch: Notch) -> Finding:
    if bench.book.counts(notch.protection):
        return _covered(bench, notch)
    return bench.say(
        "joist-cover", "notch", "fail", subject=notch.id, clause=bench.limits.cover_clause,
        measure=Measure(0.0, bench.limits.cover, ">="), edge=notch.edge,
    )  # fmt: skip


def _covered(bench: _Bench, cut: Hole | Notch) -> Finding:
    covering = bench.book.pack.protections[cut.protection].words
    return bench.say(
        "joist-cover", "covered", "pass", subject=cut.id, clause=bench.limits.cover_clause, covering=covering
    )


def _kind(bench: _Bench) -> Finding:
    joist, limits = bench.joist, bench.limits
    kind = limits.kinds[joist.kind]
    outcome, status = _kind_outcome(bench)
    measure = Measure(joist.depth, limits.deepest) if outcome in {"too-deep", "by-rule"} else None
    return bench.say(
        "joist-kind", outcome, status, subject=joist.id, measure=measure,
        kind=kind.words, who=kind.who_decides, measured=beside(joist.depth, limits.deepest),
        limit=mm(limits.deepest),
    )  # fmt: skip


def _kind_outcome(bench: _Bench) -> tuple[str, Status]:
    joist, limits = bench.joist, bench.limits
    if not joist.holes and not joist.notches:
        return "uncut", "not-applicable"
    if not limits.kinds[joist.kind].may_be_cut:
        return "not-by-rule", "fail"
    return ("too-deep", "fail") if above(joist.depth, limits.deepest) else ("by-rule", "pass")


_HOLE_RULES = ("joist-hole-size", "joist-hole-position", "joist-hole-centre")
_NOTCH_RULES = ("joist-notch-depth", "joist-notch-position", "joist-notch-edge")


def _uncut_by_rule(bench: _Bench) -> Iterator[Finding]:
    """Yield every structure rule as not applicable: who decides on the joist decides on them."""
    joist = bench.joist
    singles = [(rule, hole.id) for hole in joist.holes for rule in _HOLE_RULES]
    singles += [(rule, notch.id) for notch in joist.notches for rule in _NOTCH_RULES]
    pairs = [("joist-hole-spacing", one.id, other.id) for one, other in combinations(joist.holes, 2)]
    pairs += [("joist-notch-gap", notch.id, hole.id) for notch in joist.notches for hole in joist.holes]
    for rule, subject, other in [*((*single, None) for single in singles), *pairs]:
        yield bench.say(rule, "not-judged", "not-applicable", subject=subject, other=other)


def _structure(bench: _Bench) -> Iterator[Finding]:
    for hole in bench.joist.holes:
        yield from _hole(bench, hole)
    yield from (_spacing(bench, one, other) for one, other in combinations(bench.joist.holes, 2))
    for notch in bench.joist.notches:
        yield from _notch(bench, notch)
        yield from (_gap(bench, notch, hole) for hole in bench.joist.holes)


def _hole(bench: _Bench, hole: Hole) -> Iterator[Finding]:
    joist, limits = bench.joist, bench.limits.hole
    size = Measure(hole.diameter, limits.diameter * joist.depth)
    yield bench.compare("joist-hole-size", ("large", "within"), size, subject=hole.id, depth=mm(joist.depth))
    span = limits.start * joist.span, limits.to * joist.span
    near = _from_support(joist, hole.x)
    yield _position(bench, "joist-hole-position", hole.id, (near, near), span)
    off = Measure(abs(hole.y - joist.depth / 2), limits.off_centre)
    yield bench.compare("joist-hole-centre", ("off", "on"), off, subject=hole.id)


def _from_support(joist: Joist, x: float) -> float:
    return min(x, joist.span - x)


def _position(
    bench: _Bench, rule: str, subject: str, cut: tuple[float, float], span: tuple[float, float]
) -> Finding:
    """Judge whether a cut lies wholly within a stretch measured from the nearest support [mm]."""
    (near, far), (low, high) = cut, span
    too_near = below(near, low)
    measured, limit = (near, low) if too_near or not above(far, high) else (far, high)
    operator: Operator = ">=" if limit == low else "<="
    outcomes = ("near" if too_near else "far", "within")
    return bench.compare(
        rule, outcomes, Measure(measured, limit, operator), subject=subject,
        low=mm(low, places=3), high=mm(high, places=3),
    )  # fmt: skip


def _spacing(bench: _Bench, one: Hole, other: Hole) -> Finding:
    times = bench.limits.hole.spacing
    measure = Measure(abs(one.x - other.x), times * max(one.diameter, other.diameter), ">=")
    return bench.compare(
        "joist-hole-spacing", ("close", "apart"), measure, subject=one.id, other=other.id, times=mm(times)
    )


def _notch(bench: _Bench, notch: Notch) -> Iterator[Finding]:
    joist, limits = bench.joist, bench.limits.notch
    deep, depth = Measure(notch.depth, limits.depth * joist.depth), mm(joist.depth)
    yield bench.compare("joist-notch-depth", ("deep", "within"), deep, subject=notch.id, depth=depth)
    middle, half = _from_support(joist, notch.x), notch.length / 2
    span = limits.start * joist.span, limits.to * joist.span
    yield _position(bench, "joist-notch-position", notch.id, (middle - half, middle + half), span)
    allowed = notch.edge in limits.edges
    yield bench.say(
        "joist-notch-edge", "allowed" if allowed else "other", "pass" if allowed else "fail",
        subject=notch.id, edge=notch.edge, allowed=" or ".join(limits.edges),
    )  # fmt: skip


def _gap(bench: _Bench, notch: Notch, hole: Hole) -> Finding:
    clear = abs(notch.x - hole.x) - notch.length / 2 - hole.diameter / 2
    measure = Measure(clear, bench.limits.notch.clear_of_holes, ">=")
    return bench.compare("joist-notch-gap", ("close", "apart"), measure, subject=notch.id, other=hole.id)
