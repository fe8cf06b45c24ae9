"""Studs: the electrician's cover, and what a builder allows to be cut in an upright member."""

from collections.abc import Iterator
from dataclasses import dataclass

from zonelib.rules.finding import Finding, Place
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure
from zonelib.rules.timber_bench import Bench
from zonelib.rules.timber_limits import StudLimits, StudShares
from zonelib.rules.words import beside, mm
from zonelib.site.timber import Hole, Stud, StudNotch

__all__ = ["judge_stud"]

_ROLES = {
    True: "a bearing stud",
    False: "a stud that bears no load",
    None: "a stud of which nothing is known, taken as bearing",
}


@dataclass(frozen=True)
class _StudBench(Bench):
    """A stud with the limits that apply to it."""

    stud: Stud
    limits: StudLimits

    @property
    def shares(self) -> StudShares:
        """The limits for its role; an unknown one is taken as bearing, the narrower view."""
        return self.limits.other if self.stud.bearing is False else self.limits.bearing

    def covers(self, hole: Hole) -> dict[str, float]:
        """Return the timber from a hole to the front and to the rear edge [mm]."""
        radius = hole.diameter / 2
        return {"front": hole.x - radius, "rear": self.stud.depth - hole.x - radius}


def judge_stud(stud: Stud, book: Rulebook) -> Iterator[Finding]:
    """Judge all that is cut in a stud; where the pack has no rule for studs, say why it does not apply."""
    limits = book.pack.studs
    if limits is None:
        yield _unruled(stud, book)
        return
    bench = _StudBench(book, Place(stud=stud.id), limits.clause, stud, limits)
    if not stud.holes and not stud.notches:
        yield bench.say("stud-cover", "uncut", "not-applicable", subject=stud.id)
    for hole in stud.holes:
        yield from _hole(bench, hole)
    for notch in stud.notches:
        yield from _notch(bench, notch)
        yield from (_gap(bench, notch, hole) for hole in stud.holes)


def _unruled(stud: Stud, book: Rulebook) -> Finding:
    """Tell that the walls' rules decide: a clause on cover may speak of floors and ceilings only."""
    joists = book.pack.joists
    bench = Bench(book, Place(stud=stud.id), joists.cover_clause if joists else "")
    outcome = "joists-only" if joists else "no-rule"
    return bench.say("stud-cover", outcome, "not-applicable", subject=stud.id)


def _hole(bench: _StudBench, hole: Hole) -> Iterator[Finding]:
    covers, edge = bench.covers(hole), bench.limits.edge
    if bench.book.counts(hole.protection):
        yield _covered(bench, hole)
    else:
        yield bench.left_over(
            "stud-cover", ("thin", "enough"), covers, bench.limits.cover, subject=hole.id,
            clause=bench.limits.cover_clause,
        )  # fmt: skip
    size = Measure(hole.diameter, bench.shares.hole * bench.stud.depth)
    yield bench.compare("stud-hole-size", ("large", "within"), size, subject=hole.id, **_facts(bench))
    if edge is not None:
        yield bench.left_over("stud-hole-edge", ("near", "clear"), covers, edge, subject=hole.id)


def _facts(bench: _StudBench) -> dict[str, str]:
    return {"role": _ROLES[bench.stud.bearing], "depth": mm(bench.stud.depth)}


def _covered(bench: _StudBench, cut: Hole | StudNotch) -> Finding:
    covering = bench.book.pack.protections[cut.protection].words
    return bench.say(
        "stud-cover", "covered", "pass", subject=cut.id, clause=bench.limits.cover_clause, covering=covering
    )


def _notch(bench: _StudBench, notch: StudNotch) -> Iterator[Finding]:
    if bench.book.counts(notch.protection):
        yield _covered(bench, notch)
    else:
        yield bench.say(
            "stud-cover", "notch", "fail", subject=notch.id, clause=bench.limits.cover_clause,
            measure=Measure(0.0, bench.limits.cover, ">="), edge=notch.edge,
        )  # fmt: skip
    deep = Measure(notch.depth, bench.shares.notch * bench.stud.depth)
    yield bench.compare("stud-notch-depth", ("deep", "within"), deep, subject=notch.id, **_facts(bench))


def _gap(bench: _StudBench, notch: StudNotch, hole: Hole) -> Finding:
    """Judge whether a hole keeps clear of a notch along the stud, so that no section has both."""
    clear = bench.limits.clear_of_notches
    if clear is None:
        return bench.unlimited("stud-notch-gap", subject=notch.id, other=hole.id)
    along = abs(notch.y - hole.y) - notch.length / 2 - hole.diameter / 2
    return bench.compare(
        "stud-notch-gap", ("overlap" if along < 0 else "close", "apart"), Measure(along, clear, ">="),
        subject=notch.id, other=hole.id, overlap=beside(-along, 0.0),
    )  # fmt: skip
