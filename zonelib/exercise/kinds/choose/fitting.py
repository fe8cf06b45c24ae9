"""Whether a question fits its case, and the order of its choices as it is frozen."""

import hashlib
from collections import Counter
from collections.abc import Iterator
from typing import Any

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.choose.answer import ChooseAnswer
from zonelib.exercise.kinds.choose.option import Option
from zonelib.exercise.kinds.choose.options import all_options, offered
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.fields import Piece
from zonelib.site.model import Case

__all__ = ["ChooseFacts", "faults", "frozen"]

OF_A_ROUTE = ("clauses", "concerned-faces")


class ChooseFacts(Piece):
    """The seed from which the order of the choices follows."""

    seed: int


def frozen(exercise: Exercise, _: Case, __: Pack, ___: ChooseAnswer) -> dict[str, Any]:
    """Return the seed: the task's own, or one that hangs on the exercise's name."""
    seed = exercise.task_as(ChooseTask).seed
    named = int.from_bytes(hashlib.sha256(exercise.id.encode()).digest()[:4])
    return {"seed": named if seed is None else seed}


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield what keeps a question from being asked of its case."""
    task = exercise.task_as(ChooseTask)
    found = [*_key_faults(task), *_name_faults(task, case)]
    yield from found or _choice_faults(exercise, task, case, pack)


def _key_faults(task: ChooseTask) -> Iterator[Fault]:
    own = task.ask == "own"
    if own and not task.source.strip():
        yield Fault("choose.source", "none", "where the key comes from, since no engine can check it")
    if own != bool(task.choices):
        found = "none" if own else f'{len(task.choices)} for "{task.ask}", which the engine works out'
        yield Fault("choose.choices", found, "choices of your own" if own else "none")
    for name, times in Counter(one.id for one in task.choices).items():
        if times > 1:
            yield Fault("choose.choices.id", f'"{name}" more than once', "each id once")


def _name_faults(task: ChooseTask, case: Case) -> Iterator[Fault]:
    if task.ask in OF_A_ROUTE:
        routes = [route.id for route in case.routes]
        yield from unknown("choose.of", [task.of or "nothing"], routes)
    elif task.of:
        yield Fault("choose.of", f'"{task.of}"', f'nothing: "{task.ask}" asks of all there is')


def _choice_faults(exercise: Exercise, task: ChooseTask, case: Case, pack: Pack) -> Iterator[Fault]:
    every = all_options(case, pack, task)
    yield from unknown("choose.among", task.among, [one.id for one in every])
    options = offered(every, task)
    yield from _unfair(task, options, [one.id for one in every if one.right])
    model = ChooseAnswer.model_validate(exercise.model)
    yield from unknown("model.chosen", model.chosen, [one.id for one in options])


def _unfair(task: ChooseTask, options: tuple[Option, ...], right: list[str]) -> Iterator[Fault]:
    """Yield why the choices on offer make no question."""
    count = len([one for one in options if one.right])
    if task.pick == "one" and count != 1:
        yield Fault(
            "choose.pick", f'"one", and {count} of the choices are right', "one right choice, or several"
        )
    elif count in (0, len(options)):
        yield Fault("choose", f"{count} right of {len(options)} choices", "at least one right and one other")
    if task.ask == "clauses" and (left := [one for one in right if one not in {o.id for o in options}]):
        yield Fault("choose.among", f"a list without {', '.join(left)}", "one with every clause that fails")
    for one in options:
        if one.unsure:
            yield Fault("choose", f"{one.id}, of which the engine says: {one.short}", "fixings it can decide")
