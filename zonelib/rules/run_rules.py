"""Cables along a joist, in the void of a floor or a ceiling.

What the clause says of such voids is one sentence: the cable must not come to harm from the floor, the
ceiling or what fixes them (quoted, grade Q). How a practitioner applies it, each with its grade:

- *At the side of a joist* the boards' nails may miss the middle of the edge and come out of the side.
  So the cover that is asked for over a hole is kept from every edge that something is fixed to (P).
- *Over or under an edge that a floor or a ceiling is fixed to*, the nail goes straight in: it fails (D).
- *Over or under an edge that nothing is fixed to*, as over the joists of an unboarded loft, no fixing
  reaches it today. Boards follow, and feet before them: a caution (C).
- *On the ceiling, between the joists*: the ceiling's own fixings go into the joists and miss it, and in a
  space that nobody enters it need not be clipped. A screw for a lamp can meet it: a caution (C).

An RCD is no option anywhere here (Q). Where a covering counts, each of these passes (Q).
"""

from collections.abc import Iterator
from dataclasses import dataclass

from zonelib.rules.finding import Finding, Place
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure
from zonelib.rules.timber_bench import Bench
from zonelib.rules.timber_limits import JoistLimits
from zonelib.rules.words import mm
from zonelib.site.timber import Joist, Run

__all__ = ["judge_run"]

_NAILED = {"top": "floor", "bottom": "ceiling"}
_EDGES = {"over": "top", "under": "bottom"}


@dataclass(frozen=True)
class _RunBench(Bench):
    """A run with its joist and the limits that apply to it."""

    run: Run
    joist: Joist
    limits: JoistLimits

    @property
    def cover(self) -> float:
        """Least distance from an edge that something is fixed to [mm]."""
        return self.limits.run_cover or self.limits.cover

    def covers(self) -> dict[str, float]:
        """Return how far a run at the joist's side lies below its top and above its bottom [mm]."""
        run, height = self.run, self._height()
        if run.below_top is not None:
            return {"top": run.below_top, "bottom": self.joist.depth - run.below_top - height}
        bottom = run.above_bottom or 0.0
        return {"top": self.joist.depth - bottom - height, "bottom": bottom}

    def _height(self) -> float:
        """Return how much of the joist's side the cable or its conduit takes [mm]."""
        usual = self.book.pack.protections[self.run.protection].outer
        return self.run.cable.width if usual is None else self.run.outer or usual


def judge_run(run: Run, joist: Joist, book: Rulebook) -> Iterator[Finding]:
    """Judge a cable along a joist; where the pack has no rule for joists, say that none applies."""
    limits = book.pack.joists
    place = Place(joist=joist.id, from_mm=_start(run), to_mm=_end(run, joist))
    if limits is None:
        bench = Bench(book, place, "")
        yield bench.say("run-cover", "no-rule", "not-applicable", subject=run.id, country=book.pack.country)
        return
    run_bench = _RunBench(book, place, limits.run_clause or limits.cover_clause, run, joist, limits)
    yield _cover(run_bench)
    yield _on_joist(run_bench)


def _start(run: Run) -> float:
    return 0.0 if run.start is None else run.start


def _end(run: Run, joist: Joist) -> float:
    return joist.span if run.end is None else run.end


def _cover(bench: _RunBench) -> Finding:
    run, pack = bench.run, bench.book.pack
    if bench.book.counts(run.protection):
        covering = pack.protections[run.protection].words
        return bench.say("run-cover", "covered", "pass", subject=run.id, covering=covering)
    if run.supply != "lv" and pack.low_voltage_counts:
        return bench.say("run-cover", "low-voltage", "pass", subject=run.id, supply=run.supply.upper())
    if run.place == "on-ceiling":
        return bench.say("run-cover", "on-ceiling", "caution", subject=run.id)
    return _at_side(bench) if run.place == "side" else _at_edge(bench)


def _at_side(bench: _RunBench) -> Finding:
    nailed = {edge: left for edge, left in bench.covers().items() if _is_nailed(bench.run, edge)}
    edge = min(nailed, key=lambda name: nailed[name])
    return bench.left_over(
        "run-cover", ("thin", "enough"), nailed, bench.cover, subject=bench.run.id, nailed=_NAILED[edge]
    )  # fmt: skip


def _is_nailed(run: Run, edge: str) -> bool:
    return run.void in {"both", _NAILED[edge]}


def _at_edge(bench: _RunBench) -> Finding:
    """Judge a run over the joist's top or under its bottom: no timber lies between it and a nail."""
    run, edge = bench.run, _EDGES[bench.run.place]
    nailed = _is_nailed(run, edge)
    return bench.say(
        "run-cover", "on-edge" if nailed else "open-edge", "fail" if nailed else "caution", subject=run.id,
        measure=Measure(0.0, bench.cover, ">=") if nailed else None, measured=mm(0.0),
        limit=mm(bench.cover), place=run.place, edge=edge, nailed=_NAILED[edge],
    )  # fmt: skip


def _on_joist(bench: _RunBench) -> Finding:
    """Judge whether the run lies along its joist: within the span, and at the side within its depth."""
    run, span = bench.run, bench.joist.span
    past = [part for x in (_start(run), _end(run, bench.joist)) for part in (-x, x - span)]
    past += [-left for left in bench.covers().values()] if run.place == "side" else []
    off = Measure(max(0.0, *past), 0.0)
    return bench.compare("run-on-joist", ("off", "on"), off, subject=run.id, clause="")
