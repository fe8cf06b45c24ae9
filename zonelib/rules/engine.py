"""Judge a case: every rule applied to every place, all findings kept."""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from typing import Any

from zonelib.rules.chase_rules import chase_depth, chase_line
from zonelib.rules.edge_rules import wall_edge
from zonelib.rules.finding import Finding
from zonelib.rules.fixing_rules import judge_fixing
from zonelib.rules.job import Job
from zonelib.rules.joist_rules import judge_joist
from zonelib.rules.journey import Journey, Site
from zonelib.rules.pack import Pack, load_pack
from zonelib.rules.rcd_rules import metal_wall, wall_rcd
from zonelib.rules.route_rules import depth_in_wall, route_in_void, route_joins, route_on_wall
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.run_rules import judge_run
from zonelib.rules.stud_rules import judge_stud
from zonelib.rules.wall_rules import wall_line, wall_zone
from zonelib.site.model import Case

__all__ = ["ROUTE_RULES", "Verdict", "judge", "judge_routes"]


def _on_each_wall(rule: Callable[[Job], Iterator[Finding]]) -> Callable[[Journey], Iterator[Finding]]:
    def over(journey: Journey) -> Iterator[Finding]:
        for job in journey.jobs:
            yield from rule(job)

    return over


ROUTE_RULES: dict[str, Callable[[Journey], Iterator[Finding]]] = {
    "wall-zone": _on_each_wall(wall_zone),
    "wall-line": _on_each_wall(wall_line),
    "wall-edge": _on_each_wall(wall_edge),
    "wall-rcd": wall_rcd,
    "metal-wall": _on_each_wall(metal_wall),
    "route-joins": route_joins,
    "route-on-wall": _on_each_wall(route_on_wall),
    "route-in-void": route_in_void,
    "depth-in-wall": _on_each_wall(depth_in_wall),
    "chase-depth": _on_each_wall(chase_depth),
    "chase-line": _on_each_wall(chase_line),
}


@dataclass(frozen=True)
class Verdict:
    """All findings for a case.

    Attributes
    ----------
    pack, edition : str
        The pack's name, and the edition with what it was not checked against.
    findings : tuple of Finding
        Routes, then joists, studs, runs and fixings, each in the order of the case and of the rules.
    """

    pack: str
    edition: str
    findings: tuple[Finding, ...]

    @property
    def passed(self) -> bool:
        """Whether no finding is a fail."""
        return not any(finding.status == "fail" for finding in self.findings)

    @property
    def failures(self) -> tuple[Finding, ...]:
        """The failed findings; their order is their number on a picture."""
        return tuple(finding for finding in self.findings if finding.status == "fail")

    def as_data(self) -> dict[str, Any]:
        """Return the verdict as JSON data."""
        findings = [finding.as_data() for finding in self.findings]
        return {"pack": self.pack, "edition": self.edition, "passed": self.passed, "findings": findings}


def judge(case: Case, pack: Pack | None = None) -> Verdict:
    """Apply every rule of a pack to a case.

    Parameters
    ----------
    case : Case
        What is there.
    pack : Pack, optional
        The rules; by default those of the pack the case names.

    Returns
    -------
    Verdict
        With one finding or more for each rule and place, passed ones included.
    """
    pack = pack or load_pack(case.pack)
    book = Rulebook(pack, case.readings)
    return Verdict(pack.id, pack.stated_edition, tuple(_findings(case, book)))


def judge_routes(case: Case, pack: Pack, *, rules: Collection[str]) -> Iterator[Finding]:
    """Yield what some rules alone find on a case's routes, in the order of the rules."""
    yield from _on_routes(Site(case, Rulebook(pack, case.readings)), rules)


def _on_routes(site: Site, rules: Collection[str]) -> Iterator[Finding]:
    for route in site.case.routes:
        journey = site.journey(route)
        for name, rule in ROUTE_RULES.items():
            if name in rules:
                yield from rule(journey)


def _findings(case: Case, book: Rulebook) -> Iterator[Finding]:
    site = Site(case, book)
    yield from _on_routes(site, ROUTE_RULES)
    for joist in case.joists:
        yield from judge_joist(joist, book)
    for stud in case.studs:
        yield from judge_stud(stud, book)
    joists = {joist.id: joist for joist in case.joists}
    for run in case.runs:
        yield from judge_run(run, joists[run.joist], book)
    for fixing in case.fixings:
        yield from judge_fixing(fixing, site.surfaces[fixing.wall].wall, book)
