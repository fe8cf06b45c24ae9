"""Joists: the electrician's cover, and what a builder allows to be cut."""

from collections.abc import Iterator
from itertools import combinations

from zonelib.rules.finding import Finding, Place, Status
from zonelib.rules.joist_bench import JoistBench
from zonelib.rules.joist_cuts import judge_cuts
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure
from zonelib.rules.words import beside, mm
from zonelib.site.timber import Hole, Joist, Notch
from zonelib.site.tolerance import above

__all__ = ["judge_joist"]


def judge_joist(joist: Joist, book: Rulebook) -> Iterator[Finding]:
    """Judge all that is cut in a joist; a pack without limits for joists yields nothing."""
    limits = book.pack.joists
    if limits is None:
        return
    bench = JoistBench(book, Place(joist=joist.id), limits.clause, joist, limits)
    yield from (_hole_cover(bench, hole) for hole in joist.holes)
    yield from (_notch_cover(bench, notch) for notch in joist.notches)
    kind = _kind(bench)
    yield kind
    yield from _uncut_by_rule(bench) if kind.status == "fail" else judge_cuts(bench)


def _hole_cover(bench: JoistBench, hole: Hole) -> Finding:
    """Judge the timber left between a hole and the edge nearest to it.

    A cable may rest on the hole's bottom or press against its top, so measuring to the cable
    gives the same cover as measuring to the hole's edge: the reading changes the words, not the verdict.
    """
    if bench.book.counts(hole.protection):
        return _covered(bench, hole)
    return bench.left_over(
        "joist-cover", ("thin", "enough"), bench.covers(hole), bench.limits.cover, subject=hole.id,
        clause=bench.limits.cover_clause,
    )  # fmt: skip


def _notch_cover(bench: JoistBench, notch: Notch) -> Finding:
    if bench.book.counts(notch.protection):
        return _covered(bench, notch)
    return bench.say(
        "joist-cover", "notch", "fail", subject=notch.id, clause=bench.limits.cover_clause,
        measure=Measure(0.0, bench.limits.cover, ">="), edge=notch.edge,
    )  # fmt: skip


def _covered(bench: JoistBench, cut: Hole | Notch) -> Finding:
    covering = bench.book.pack.protections[cut.protection].words
    return bench.say(
        "joist-cover", "covered", "pass", subject=cut.id, clause=bench.limits.cover_clause, covering=covering
    )


def _kind(bench: JoistBench) -> Finding:
    joist, deepest = bench.joist, bench.limits.deepest
    kind = bench.limits.kinds[joist.kind]
    outcome, status = _kind_outcome(bench)
    told = deepest if outcome in {"too-deep", "by-rule"} else None
    return bench.say(
        "joist-kind", outcome, status, subject=joist.id, kind=kind.words, who=kind.who_decides,
        measure=None if told is None else Measure(joist.depth, told),
        measured="" if told is None else beside(joist.depth, told), limit="" if told is None else mm(told),
    )  # fmt: skip


def _kind_outcome(bench: JoistBench) -> tuple[str, Status]:
    joist, limits = bench.joist, bench.limits
    if not joist.holes and not joist.notches:
        return "uncut", "not-applicable"
    if not limits.kinds[joist.kind].may_be_cut:
        return "not-by-rule", "fail"
    if limits.deepest is None:
        return "any-depth", "pass"
    return ("too-deep", "fail") if above(joist.depth, limits.deepest) else ("by-rule", "pass")


_HOLE_RULES = ("joist-hole-size", "joist-hole-position", "joist-hole-centre")
_NOTCH_RULES = ("joist-notch-depth", "joist-notch-position", "joist-notch-edge")


def _uncut_by_rule(bench: JoistBench) -> Iterator[Finding]:
    """Yield every structure rule as not applicable: who decides on the joist decides on them."""
    joist = bench.joist
    singles = [(rule, hole.id) for hole in joist.holes for rule in _HOLE_RULES]
    singles += [(rule, notch.id) for notch in joist.notches for rule in _NOTCH_RULES]
    pairs = [("joist-hole-spacing", one.id, other.id) for one, other in combinations(joist.holes, 2)]
    pairs += [("joist-notch-gap", notch.id, hole.id) for notch in joist.notches for hole in joist.holes]
    for rule, subject, other in [*((*single, None) for single in singles), *pairs]:
        yield bench.say(rule, "not-judged", "not-applicable", subject=subject, other=other)
