"""Whether an inspection fits its case: names, something that fails, and something that passes."""

from collections.abc import Iterator

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.inspect.comparing import Compared
from zonelib.exercise.kinds.inspect.targets import failing, inspected, route_length, targets
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.model import Exercise
from zonelib.rules.engine import ROUTE_RULES, Verdict, judge
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.model import Case, Route

__all__ = ["faults"]


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names that are not known, and an installation that leaves nothing to tell apart."""
    task = exercise.task_as(InspectTask)
    names = [route.id for route in case.routes]
    amiss = [
        *unknown("inspect.routes", task.routes, names),
        *unknown("inspect.clauses", task.clauses, pack.citations),
        *unknown("inspect.also", task.also, ROUTE_RULES),
        *(one for more in task.also.values() for one in unknown("inspect.also", more, task.clauses)),
        *unknown("inspect.remedies.route", [one.route for one in task.remedies], names),
        *unknown("inspect.whys.rule", [one.rule for one in task.whys], ROUTE_RULES),
    ]
    yield from amiss
    if not amiss:
        routes = inspected(case, task)
        yield from _on_one_wall(routes)
        yield from _installation(task, judge(case, pack), routes)


def _on_one_wall(routes: tuple[Route, ...]) -> Iterator[Fault]:
    for route in routes:
        if route.wall is None:
            yield Fault(f"case.routes.{route.id}.room", "a cable round a room", "a cable on one wall")


def _installation(task: InspectTask, verdict: Verdict, routes: tuple[Route, ...]) -> Iterator[Fault]:
    for _, one in failing(verdict, routes):
        if not one.clause:
            allowed = "cables that reach what they join and lie in their wall: no clause stands behind that"
            yield Fault(f"case.routes.{one.subject}", f"a cable that fails {one.rule}", allowed)
        elif one.clause not in task.clauses:
            yield Fault(
                "inspect.clauses", f"no {one.clause}, which fails here", "every clause that fails here"
            )
    found = targets(verdict, routes, task)
    lengths = {route.id: route_length(route) for route in routes}
    seen = Compared(found, (), lengths, task.slack)
    if not found:
        yield Fault("case.routes", "cables that all pass", "a stretch or more that fails")
    if not any(seen.passing(route) for route in lengths):
        yield Fault("case.routes", "cables that fail all along", "a stretch or more that passes")
