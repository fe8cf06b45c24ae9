"""Lead a cable to the edge of its wall, where it enters a void."""

from collections.abc import Iterator

from zonelib.coach.remedies.edits import cable_cost, tidy
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.words import leg_words

__all__ = ["meet_void"]


def meet_void(task: Task) -> Iterator[Advice]:
    """Yield the route with both ends of its legs through a void at the edge of the wall."""
    points = list(task.route.points)
    for number in task.numbers:
        low = task.route.via[number - 1] == "floor-void"
        for at in (number - 1, number):
            x = points[at][0]
            points[at] = (x, 0.0 if low else task.journey.ceiling(x))
    route = tidy(task.route.model_copy(update={"points": tuple(points)}))
    edge = "foot" if task.route.via[(task.numbers or (1,))[0] - 1] == "floor-void" else "top"
    words = say("meet-void", legs=leg_words(task.numbers), edge=edge)
    yield Remedy("meet-void", words, cable_cost(task, route), task.with_route(route))
