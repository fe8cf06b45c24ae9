"""How the criteria of a route are decided."""

import math
from collections.abc import Callable

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.cabling import Cabling, outside_offer
from zonelib.exercise.criteria import Outcome, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.fitting import RouteFacts
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.told import told
from zonelib.rules.words import leg_words, listed, mm
from zonelib.site.fields import Point
from zonelib.site.model import Case
from zonelib.site.ring import ring_of
from zonelib.site.tolerance import above

__all__ = ["CHECKS", "answered_case", "mark"]

START_REACH = 1.0
"""How near an end must lie to the given start [mm]."""

WHOLE = ("route-joins", "route-on-wall", "route-in-void", "depth-in-wall")
"""Rules that a route meets or is no whole route."""

UNTIL = "This counts once the route is whole."


def mark(bundle: Bundle, answer: RouteAnswer) -> Judged:
    """Judge the answered route, then decide each criterion."""
    run = Cabling(_task(bundle), answered_case(bundle, answer), bundle.pack)
    if flaw := _flaw(bundle, answer, run):
        criteria = withheld(bundle.criteria, flaw, check="reach", until=UNTIL)
    else:
        criteria = decide(
            bundle.criteria,
            lambda rule: CHECKS[rule.check](bundle, run) if rule.check else run.in_order(rule),
        )
    return Judged(criteria, told(criteria, run.verdict), run.case, run.verdict)


def answered_case(bundle: Bundle, answer: RouteAnswer) -> Case:
    """Return the exercise's case with the answered route as its only route.

    Raises
    ------
    FileFault
        If the answer's numbers do not make a route.
    """
    task = _task(bundle)
    if task.room and answer.points:
        answer = _once_round(answer, ring_of(bundle.case, task.room).length)
    return bundle.case_with(routes=[task.case_route(answer)])


def _once_round(answer: RouteAnswer, turn: float) -> RouteAnswer:
    """Return a route round a room moved by whole turns, so that its first point lies on the row as drawn."""
    first = answer.points[0][0]
    if 0.0 <= first <= turn:
        return answer
    back = turn * math.floor(first / turn)
    return answer.model_copy(update={"points": tuple((x - back, y) for x, y in answer.points)})


def _task(bundle: Bundle) -> RouteTask:
    return bundle.exercise.task_as(RouteTask)


def _flaw(bundle: Bundle, answer: RouteAnswer, run: Cabling) -> str:
    """Return why a route counts for nothing but its flaw, or "" where it is a whole route.

    Marks for rules are given only to a route that starts where it must, reaches what it joins, lies on
    its wall and fits into it: a stub in a zone breaks no rule and does no job.
    """
    start, ends = _task(bundle).start, (answer.points[0], answer.points[-1])
    if start and min(_apart(run, start, end) for end in ends) > START_REACH:
        return f"The route does not start at the given point ({mm(start[0])}, {mm(start[1])})."
    for rule in WHOLE:
        for finding in run.failed((rule,)):
            return finding.text
    return outside_offer(_task(bundle), bundle.pack, depth=answer.depth, protection=answer.protection)


def _apart(run: Cabling, start: Point, end: Point) -> float:
    """Return how far an end lies from the start; a room's x begins anew each time round [mm]."""
    across = end[0] - start[0]
    if run.route.room:
        turn = ring_of(run.case, run.route.room).length
        across -= turn * round(across / turn)
    return math.hypot(across, end[1] - start[1])


def _reach(bundle: Bundle, _: Cabling) -> Outcome:
    joins = listed(list(_task(bundle).joins))
    return 1.0, f"It reaches {joins or 'its end'}."


def _length(bundle: Bundle, run: Cabling) -> Outcome:
    limit = bundle.facts_as(RouteFacts).shortest * _task(bundle).longest
    met = not above(run.length, limit)
    compare = "no more than" if met else "more than"
    return float(met), f"It is {mm(run.length, places=0)} mm long, {compare} {mm(limit, places=0)} mm."


def _covering(bundle: Bundle, run: Cabling) -> Outcome:
    """Judge whether each covered run needs its covering, and whether there are more than there need be.

    A run kept out of the zones on purpose needs its covering all the way. So the covered length is
    held to the model answer's, with the same margin as the whole length.
    """
    covered, needless = run.needless()
    if not covered:
        return 1.0, "No covering is used beyond what was given."
    if _task(bundle).zone_serves:
        return 0.0, "A run in the zones needs no covering here."
    if needless:
        return 0.0, f"Without a covering, {leg_words(needless)} would pass as well."
    limit = bundle.facts_as(RouteFacts).covered * _task(bundle).longest
    if above(run.covered, limit):
        enough = f"{mm(limit, places=0)} mm are enough, with the rest in the zones"
        return 0.0, f"{mm(run.covered, places=0)} mm are covered; {enough}."
    return 1.0, "Each covering stands where no zone serves."


CHECKS: dict[str, Callable[[Bundle, Cabling], Outcome]] = {
    "reach": _reach,
    "length": _length,
    "covering": _covering,
}
