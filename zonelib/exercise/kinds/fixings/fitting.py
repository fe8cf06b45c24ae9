"""Whether the things to hang fit the case."""

from collections.abc import Iterator

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.fixings.hanging import free_places
from zonelib.exercise.kinds.fixings.task import FixingsTask, Item
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.model import Case

__all__ = ["faults"]


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names the case does not know, and things that cannot hang on the wall at all."""
    task = exercise.task_as(FixingsTask)
    if pack.fixings is None:
        yield Fault(
            "case.pack", f'"{pack.id}", which has no rule for fixings', "a pack with a table [fixings]"
        )
    amiss = list(unknown("fixings.wall", [task.wall], [wall.id for wall in case.walls]))
    yield from amiss
    names = [item.id for item in task.items]
    for item in task.items:
        if names.count(item.id) > 1:
            yield Fault(f"fixings.items.{item.id}", "this id twice", "each id once")
        yield from _within(item)
        if not amiss and free_places(item, {}, task, case.wall(task.wall), pack).is_empty:
            allowed = "a thing for which the wall has a place where no fixing is in danger"
            yield Fault(f"fixings.items.{item.id}", "a thing that can hang nowhere", allowed)


def _within(item: Item) -> Iterator[Fault]:
    for number, (x, y) in enumerate(item.fixings, start=1):
        if not (0 <= x <= item.width and 0 <= y <= item.height):
            allowed = f"a point within 0 to {item.width:g} and 0 to {item.height:g}"
            yield Fault(f"fixings.items.{item.id}.fixings.#{number}", f"{x:g}, {y:g}", allowed)
