"""What fails in an installation, as the engine finds it: the stretches that are to be marked."""

from dataclasses import dataclass

from zonelib.draw.stretches import WHOLE
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.inspect.spans import Span, shared, union
from zonelib.exercise.kinds.inspect.task import InspectTask, Remedy
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.finding import Finding
from zonelib.site.model import Case, Route

__all__ = ["Target", "failing", "inspected", "mends", "route_length", "targets"]


@dataclass(frozen=True)
class Target:
    """One stretch that fails, on however many faces.

    Attributes
    ----------
    route, rule : str
        What fails, and by which rule.
    clauses : tuple of str
        Where that is written; any of them will do.
    span : tuple of float or None
        Along the route [mm]; None where the cable as a whole fails.
    numbers : tuple of int
        Places of its findings among all failed ones: their numbers on the picture.
    finding : Finding
        The first of them.
    """

    route: str
    rule: str
    clauses: tuple[str, ...]
    span: Span | None
    numbers: tuple[int, ...]
    finding: Finding


def inspected(case: Case, task: InspectTask) -> tuple[Route, ...]:
    """Return the cables that are to be inspected."""
    return tuple(route for route in case.routes if not task.routes or route.id in task.routes)


def route_length(route: Route) -> float:
    """Return a cable's length along its centre line [mm]."""
    ends = zip(route.points, route.points[1:], strict=False)
    return float(sum(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 for (x0, y0), (x1, y1) in ends))


def failing(verdict: Verdict, routes: tuple[Route, ...]) -> list[tuple[int, Finding]]:
    """Return the failed findings on some cables, each with its place among all failed ones."""
    names = {route.id for route in routes}
    return [(n, one) for n, one in enumerate(verdict.failures, start=1) if one.subject in names]


def targets(verdict: Verdict, routes: tuple[Route, ...], task: InspectTask) -> tuple[Target, ...]:
    """Return what fails on some cables; what fails the same rule for both faces in one place is one."""
    found: list[Target] = []
    for n, one in failing(verdict, routes):
        span = _span(one)
        same = next((at for at, other in enumerate(found) if _same(other, one, span)), None)
        if same is None:
            clauses = (one.clause, *task.also.get(one.rule, ()))
            found.append(Target(one.subject, one.rule, clauses, span, (n,), one))
        else:
            found[same] = _joined(found[same], n, span)
    return tuple(found)


def _span(one: Finding) -> Span | None:
    if one.rule in WHOLE or one.where.from_mm is None or one.where.to_mm is None:
        return None
    return one.where.from_mm, one.where.to_mm


def _same(target: Target, one: Finding, span: Span | None) -> bool:
    if (target.route, target.rule) != (one.subject, one.rule):
        return False
    return span is None or target.span is None or shared([target.span], [span]) > 0


def _joined(target: Target, n: int, span: Span | None) -> Target:
    whole = union([one for one in (target.span, span) if one])
    span = (whole[0][0], whole[-1][1]) if whole else None
    numbers = (*target.numbers, n)
    return Target(target.route, target.rule, target.clauses, span, numbers, target.finding)


def mends(bundle: Bundle, remedy: Remedy, target: Target) -> bool:
    """Tell whether a remedy mends a stretch: the engine judges the changed cable, and nothing new fails.

    Where the cable stays where it is, the stretch itself must pass. Where it is laid anew, no part of
    it may fail the same rule.
    """
    if remedy.route != target.route:
        return False
    before, after = (bundle.once(_failures, remedy.route, change) for change in (None, remedy))
    if {one.rule for one in after} - {one.rule for one in before}:
        return False
    left = [_span(one) for one in after if one.rule == target.rule]
    if remedy.points is not None or target.span is None:
        return not left
    return not any(span is None or shared([span], [target.span]) > 0 for span in left)


def _failures(bundle: Bundle, name: str, change: Remedy | None) -> list[Finding]:
    route = next(one for one in bundle.exercise.case["routes"] if one["id"] == name)
    alone = bundle.case_with(routes=[change.changed(route) if change else route], joists=[], fixings=[])
    return list(judge(alone, bundle.pack).failures)
