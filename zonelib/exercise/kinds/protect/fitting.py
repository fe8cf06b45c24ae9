"""Whether the task of a protect exercise fits its case."""

from collections.abc import Iterator

from zonelib.exercise.cabling.cabling import Cabling
from zonelib.exercise.cabling.task import cable_faults
from zonelib.exercise.kinds.protect.answer import ProtectAnswer
from zonelib.exercise.kinds.protect.task import ProtectTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault, FileFault
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

__all__ = ["faults"]

PLACED = ("route-joins", "route-on-wall")
"""What a trainee cannot mend, since the route stays where it is."""


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names that case or pack do not know, a route that lies badly, and what is amiss in the model."""
    task = exercise.task_as(ProtectTask)
    found = list(cable_faults(task, "protect", case, pack))
    yield from found or _route_faults(exercise, task, pack)


def _route_faults(exercise: Exercise, task: ProtectTask, pack: Pack) -> Iterator[Fault]:
    model = ProtectAnswer.model_validate(exercise.model)
    data = {**exercise.case, "routes": [task.case_route(model)]}
    try:
        run = Cabling(task, case_from_data(data, pack.vocabulary), pack)
    except FileFault as fault:
        path = f"routes.{task.id}"
        yield from (Fault(one.path.replace(path, "model"), one.found, one.allowed) for one in fault.faults)
        return
    for finding in run.failed(PLACED):
        yield Fault("protect.points", finding.reason, "a route on its wall that touches all it joins")
