"""The shortest run of a route exercise, found by the solver: what its length criterion rests on."""

from collections.abc import Iterator

from zonelib.coach.solver import Blocked, Cost, Search, Solution, search_of, shortest_route
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.model import Exercise
from zonelib.site.model import Rcd, Route, Via

__all__ = ["EASY", "SHORT", "bare_route", "covered_route", "length_doubts", "shortest_length"]

SHORT = Cost(bend=0.0)
"""For the length alone: bends cost nothing."""

EASY = Cost()
"""For the run that a tradesman would take."""

COVERED = 1.0
"""What each covered mm costs beside its length: enough that what lies in a zone stays bare."""

NEAR = 1.0
"""How far a stated length may be out: two libraries of geometry may round unlike [mm]."""

ANYWHERE = ((0.0, 0.0), (1.0, 0.0))
"""Points that do not matter to a search."""


def shortest_length(bundle: Bundle) -> float | None:
    """Return the length of the shortest run that meets the rules, or None where the solver finds none.

    With ``zone_serves = false`` a covering that counts may be used, and each mm of it weighs as much as a mm
    of cable: so it is used where no zone serves. The depth is the one given.

    Returns
    -------
    float or None
        To the whole millimetre [mm].
    """
    task = bundle.exercise.task_as(RouteTask)
    found = bare_route(bundle, SHORT) if task.zone_serves else covered_route(bundle, bend=0.0)
    return float(round(found.length)) if isinstance(found, Solution) and found.verdict.passed else None


def length_doubts(exercise: Exercise, bundle: Bundle) -> Iterator[str]:
    """Yield what to write where a route exercise states no shortest length, or another than the solver's."""
    if exercise.kind != "route":
        return
    stated, found = exercise.task_as(RouteTask).shortest, shortest_length(bundle)
    if found is not None and (stated is None or abs(stated - found) > NEAR):
        said = "states none" if stated is None else f"says {stated:g}"
        yield f"The shortest run is {found:g} mm long, and [route] {said}: write shortest = {found:g}."


def bare_route(bundle: Bundle, cost: Cost = EASY) -> Solution | Blocked:
    """Return the cheapest run with no covering but the one given, or why there is none."""
    return bundle.once(_search).cheapest(cost)


def _search(bundle: Bundle) -> Search:
    task = bundle.exercise.task_as(RouteTask)
    voids: tuple[Via, ...] = ("ceiling-void", "floor-void") if "via" in task.open else ()
    return search_of(bundle.case, bundle.pack, _sought(bundle, task), start=task.start, voids=voids)


def covered_route(bundle: Bundle, *, bend: float = EASY.bend) -> Solution | Blocked | None:
    """Return the cheapest run with the first covering on offer that serves, or None where none counts."""
    found: Solution | Blocked | None = None
    for name in _that_count(bundle):
        task = bundle.exercise.task_as(RouteTask)
        found = shortest_route(
            bundle.case, bundle.pack, _sought(bundle, task), start=task.start,
            cost=Cost(bend=bend, covering=COVERED), covering=name,
        )  # fmt: skip
        if isinstance(found, Solution) and found.verdict.passed:
            return found
    return found


def _that_count(bundle: Bundle) -> Iterator[str]:
    offered = bundle.exercise.task_as(RouteTask).offered(bundle.pack.protections)
    yield from (name for name in offered if bundle.pack.protections[name].counts)


def _sought(bundle: Bundle, task: RouteTask) -> Route:
    """Return the cable to be run, its RCD as good as it may be set."""
    route = bundle.case_with(routes=[task.case_route(RouteAnswer(points=ANYWHERE))]).routes[0]
    rule = bundle.pack.rcd
    if rule is None or "rcd" not in task.open:
        return route
    return route.model_copy(update={"rcd": Rcd(ma=rule.most_ma, at=rule.at[0])})
