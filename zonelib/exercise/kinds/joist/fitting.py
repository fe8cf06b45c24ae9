"""Whether a joist's task fits its case and its pack."""

from collections.abc import Iterator

from zonelib.exercise.fitting import unknown
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.exercise.model import Exercise
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.model import Case
from zonelib.site.timber import Joist
from zonelib.site.tolerance import above

__all__ = ["faults"]


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names that case or pack do not know, and a joist that no rule of thumb allows to be cut."""
    task = exercise.task_as(JoistTask)
    yield from unknown("joist.joist", [task.joist], [one.id for one in case.joists])
    yield from unknown("joist.protections", task.protections, pack.protections)
    if not task.holes and not task.notches:
        yield Fault("joist", "neither holes nor notches", "one or more of either that are to be cut")
    for joist in case.joists:
        if joist.id == task.joist:
            yield from _cuttable(joist, pack)


def _cuttable(joist: Joist, pack: Pack) -> Iterator[Fault]:
    limits = pack.joists
    if limits is None:
        yield Fault(
            "case.pack", f'"{pack.id}", which has no limits for joists', "a pack with a table [joists]"
        )
        return
    if not limits.kinds[joist.kind].may_be_cut:
        kinds = ", ".join(name for name, kind in limits.kinds.items() if kind.may_be_cut)
        yield Fault(f"case.joists.{joist.id}.kind", f'"{joist.kind}", which is not to be cut by rule', kinds)
    if limits.deepest is not None and above(joist.depth, limits.deepest):
        allowed = f"at most {limits.deepest:g}, up to which the rule reaches"
        yield Fault(f"case.joists.{joist.id}.depth", f"{joist.depth:g}", allowed)
    for part, cuts in (("holes", joist.holes), ("notches", joist.notches)):
        for cut in cuts:
            if cut.id[0] in "AB" and cut.id[1:].isdigit():
                found = "a name that the cuts of an answer have"
                yield Fault(f"case.joists.{joist.id}.{part}.{cut.id}", found, "a name such as H1 or N1")
