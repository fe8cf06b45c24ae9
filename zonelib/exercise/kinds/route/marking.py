"""How the criteria of a route are decided."""

import math
from collections.abc import Callable, Iterable

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Outcome, by_rules, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.fitting import RouteFacts
from zonelib.exercise.kinds.route.runs import straight_runs
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.model import CriterionRule
from zonelib.exercise.told import told
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.finding import Finding
from zonelib.rules.words import leg_words, mm
from zonelib.site.model import Case, Rcd
from zonelib.site.tolerance import above, below

__all__ = ["CHECKS", "answered_case", "mark"]

START_REACH = 1.0
"""How near an end must lie to the given start [mm]."""

COVERED_BY = ("wall-zone", "wall-rcd", "metal-wall")
"""The rules that a covering may satisfy; a chase is none the shallower for it."""

UNTIL = "This counts once the route is whole."


def mark(bundle: Bundle, answer: RouteAnswer) -> Judged:
    """Judge the answered route, then decide each criterion."""
    case = answered_case(bundle, answer)
    verdict = judge(case, bundle.pack)
    if flaw := _flaw(bundle, answer, verdict):
        criteria = withheld(bundle.criteria, flaw, check="reach", until=UNTIL)
    else:
        criteria = decide(bundle.criteria, lambda rule: _outcome(rule, bundle, answer, case, verdict))
    return Judged(criteria, told(criteria, verdict), case, verdict)


def answered_case(bundle: Bundle, answer: RouteAnswer) -> Case:
    """Return the exercise's case with the answered route as its only route.

    Raises
    ------
    FileFault
        If the answer's numbers do not make a route.
    """
    return bundle.case_with(routes=[_task(bundle).case_route(answer)])


def _task(bundle: Bundle) -> RouteTask:
    return bundle.exercise.task_as(RouteTask)


def _outcome(
    rule: CriterionRule, bundle: Bundle, answer: RouteAnswer, case: Case, verdict: Verdict
) -> Outcome:
    return CHECKS[rule.check](bundle, answer, case) if rule.check else _by_rules(rule, answer, verdict)


def _flaw(bundle: Bundle, answer: RouteAnswer, verdict: Verdict) -> str:
    """Return why a route counts for nothing but its flaw, or "" where it is a whole route.

    Marks for rules are given only to a route that starts where it must, reaches what it joins, lies on
    its wall and fits into it: a stub in a zone breaks no rule and does no job.
    """
    start = _task(bundle).start
    if start and min(math.dist(start, answer.points[end]) for end in (0, -1)) > START_REACH:
        return f"The route does not start at the given point ({mm(start[0])}, {mm(start[1])})."
    for rule in ("route-joins", "route-on-wall", "depth-in-wall"):
        for finding in _failed(verdict, (rule,)):
            return finding.text
    return _outside_offer(bundle, answer)


def _outside_offer(bundle: Bundle, answer: RouteAnswer) -> str:
    """Return what was set beyond what the exercise offers."""
    task = _task(bundle)
    low, high = task.depths
    for depth in answer.depth or () if "depth" in task.open else ():
        if below(depth, low) or above(depth, high):
            return f"A depth of {mm(depth)} mm is not on offer here. Choose {mm(low)} to {mm(high)} mm."
    offered = task.offered(bundle.pack.protections)
    for name in answer.protection or () if "protection" in task.open else ():
        if name not in offered:
            return f"The covering {name} is not on offer here. Choose one of: {', '.join(offered)}."
    return ""


def _failed(verdict: Verdict, rules: Iterable[str]) -> list[Finding]:
    return [finding for finding in verdict.failures if finding.rule in rules]


def _by_rules(rule: CriterionRule, answer: RouteAnswer, verdict: Verdict) -> Outcome:
    """All marks where no finding fails; for zones half the marks in proportion to the length inside."""
    failed = _failed(verdict, rule.rules)
    share, reasons = by_rules(rule, verdict.findings)
    if not failed or rule.rules != ("wall-zone",):
        return share, reasons
    inside = 1.0 - min(1.0, _covered_length(failed) / answer.length)
    return 0.5 * inside, f"{reasons}; {inside:.0%} of the length is in order"


def _covered_length(failed: list[Finding]) -> float:
    """Return the length of the failing stretches, counting what fails for both faces once [mm]."""
    spans = sorted((one.where.from_mm or 0.0, one.where.to_mm or 0.0) for one in failed)
    total, reached = 0.0, 0.0
    for start, end in spans:
        total += max(0.0, end - max(start, reached))
        reached = max(reached, end)
    return total


def _reach(bundle: Bundle, _: RouteAnswer, __: Case) -> Outcome:
    return 1.0, f"It reaches {', '.join(_task(bundle).joins) or 'its end'}."


def _length(bundle: Bundle, answer: RouteAnswer, _: Case) -> Outcome:
    limit = bundle.facts_as(RouteFacts).shortest * _task(bundle).longest
    met = not above(answer.length, limit)
    compare = "no more than" if met else "more than"
    return float(met), f"It is {mm(answer.length, places=0)} mm long, {compare} {mm(limit, places=0)} mm."


def _covering(bundle: Bundle, answer: RouteAnswer, case: Case) -> Outcome:
    """Judge each covered run again without its covering: where nothing then fails, it was not needed.

    A run kept out of the zones on purpose needs its covering all the way. So the covered length is
    held to the model answer's, with the same margin as the whole length.
    """
    route, given = case.routes[0], _task(bundle).protection
    covered = [run for run in straight_runs(route) if route.protection[run[0]] != given]
    if not covered:
        return 1.0, "No covering is used beyond what was given."
    if _task(bundle).zone_serves:
        return 0.0, "A run in the zones needs no covering here."
    needless = [leg + 1 for run in covered if not _needed(bundle, case, run) for leg in run]
    if needless:
        return 0.0, f"Without a covering, {leg_words(needless)} would pass as well."
    length, limit = answer.covered(given), bundle.facts_as(RouteFacts).covered * _task(bundle).longest
    if above(length, limit):
        enough = f"{mm(limit, places=0)} mm are enough, with the rest in the zones"
        return 0.0, f"{mm(length, places=0)} mm are covered; {enough}."
    return 1.0, "Each covering stands where no zone serves."


def _needed(bundle: Bundle, case: Case, run: list[int]) -> bool:
    """Tell whether a straight run fails once its covering is gone, be the RCD as good as the trainee may set.

    Otherwise a covering would seem needed all along a route whose RCD was left out.
    """
    route, task = case.routes[0], _task(bundle)
    bare = tuple(task.protection if leg in run else name for leg, name in enumerate(route.protection))
    rule = bundle.pack.rcd
    rcd = Rcd(ma=rule.most_ma, at=rule.at[0]) if rule and "rcd" in task.open else route.rcd
    changed = route.model_copy(update={"protection": bare, "rcd": rcd})
    verdict = judge(case.model_copy(update={"routes": (changed,)}), bundle.pack)
    failed = (leg - 1 for one in _failed(verdict, COVERED_BY) for leg in one.where.legs)
    return any(leg in run for leg in failed)


CHECKS: dict[str, Callable[[Bundle, RouteAnswer, Case], Outcome]] = {
    "reach": _reach,
    "length": _length,
    "covering": _covering,
}
