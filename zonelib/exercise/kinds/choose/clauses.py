"""Which clauses stand behind what fails on a route, and which do not."""

from collections.abc import Iterable, Iterator

from zonelib.exercise.kinds.choose.option import Option, failed_of, texts
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.rules.engine import Verdict
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.site.model import Case

__all__ = ["clauses"]

ASKS_AN_RCD = ("wall-rcd", "metal-wall")


def clauses(_: Case, pack: Pack, verdict: Verdict, task: ChooseTask) -> Iterator[Option]:
    """Yield the clauses that fail, then those that the route meets, then the rest of the pack's."""
    failed = failed_of(verdict, task.of)
    about = _by_clause(pack, (*failed, *(one for one in verdict.findings if one.subject == task.of)))
    unfair = _unfair(pack, failed)
    for name in [*about, *(one for one in pack.citations if one not in about)]:
        behind = [one for one in failed if one in about.get(name, ())]
        if behind or name != unfair:
            cited = pack.citations[name]
            short, why = (behind[0].reason, texts(behind)) if behind else _kept(about.get(name, []))
            yield Option(name, f"{cited.document}, {cited.clause}: {cited.about}", bool(behind), short, why)


def _by_clause(pack: Pack, found: Iterable[Finding]) -> dict[str, list[Finding]]:
    about: dict[str, list[Finding]] = {}
    for one in found:
        if one.clause:
            name = one.clause if one.clause in pack.citations else one.clause.partition("(")[0]
            about.setdefault(name, []).append(one)
    return about


def _unfair(pack: Pack, failed: Iterable[Finding]) -> str:
    """Return the clause that says which RCD counts, where one is missing: both answers could be defended."""
    return pack.rcd.clause if pack.rcd and any(one.rule in ASKS_AN_RCD for one in failed) else ""


def _kept(met: list[Finding]) -> tuple[str, str]:
    if not met:
        return "nothing here falls under it", "Nothing on this route falls under it."
    return met[0].reason, f"Under this clause the route is in order: {met[0].reason}."
