"""How hung things are marked."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion, Outcome, decide
from zonelib.exercise.fitting import unknown
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer
from zonelib.exercise.kinds.fixings.hanging import free_places, obstacle, safe_place, seen_wall
from zonelib.exercise.kinds.fixings.task import FixingsTask, Item
from zonelib.exercise.model import CriterionRule
from zonelib.exercise.told import Message, told
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.words import listed, mm
from zonelib.site.faults import FileFault
from zonelib.site.fields import Point
from zonelib.site.model import Case

__all__ = ["mark"]


@dataclass(frozen=True)
class _Work:
    """One answer while it is marked.

    Attributes
    ----------
    obstacles : dict of str to str
        Why each item does not hang; "" for one that does.
    seen, whole : Verdict
        What is found by the clues that can be seen, and with what nobody could see.
    """

    task: FixingsTask
    obstacles: dict[str, str]
    seen: Verdict
    whole: Verdict

    def hung(self) -> list[str]:
        return [name for name, why in self.obstacles.items() if not why]

    def endangered(self, verdict: Verdict) -> list[str]:
        failed = {one.subject.rpartition(".")[0] for one in verdict.failures}
        return [name for name in self.hung() if name in failed]


def mark(bundle: Bundle, answer: FixingsAnswer) -> Judged:
    """Judge the fixings of what hangs by the clues that can be seen, then decide each criterion."""
    task = bundle.exercise.task_as(FixingsTask)
    if amiss := list(unknown("places", answer.places, [item.id for item in task.items])):
        raise FileFault("the answer", amiss)
    wall = bundle.case.wall(task.wall)
    obstacles = {item.id: obstacle(item, answer.places, task, wall) for item in task.items}
    hung = [item for item in task.items if not obstacles[item.id]]
    fixings = [one for item in hung for one in _fixings(item, answer.places[item.id], task)]
    whole = bundle.case_with(fixings=fixings)
    seen = judge(_as_seen(whole), bundle.pack)
    work = _Work(task, obstacles, _only_fixings(seen), _only_fixings(judge(whole, bundle.pack)))
    criteria = decide(bundle.criteria, lambda rule: _CHECKS[rule.check or "clear"](work))
    criteria = tuple(map(_explained, bundle.criteria, criteria))
    moves = tuple(_moves(bundle, work, answer))
    return Judged(criteria, (*told(criteria, work.seen), *moves), whole, work.seen)


def _explained(rule: CriterionRule, decided: Criterion) -> Criterion:
    """Return the loss of clear places as waiting: a finding tells of each, or the criterion for hanging."""
    return replace(decided, waits=rule.check == "clear" and not decided.met)


def _fixings(item: Item, place: Point, task: FixingsTask) -> Iterator[dict[str, Any]]:
    """Yield an item's fixings as the case has them, named after it."""
    given = {"wall": task.wall, "face": task.face, "penetration": task.penetration, "diameter": task.diameter}
    for number, (x, y) in enumerate(item.fixings, start=1):
        yield {"id": f"{item.id}.{number}", **given, "x": place[0] + x, "y": place[1] + y}


def _as_seen(case: Case) -> Case:
    """Return a case without what is out of sight, and without cables, which nobody sees either."""
    return case.model_copy(update={"walls": tuple(map(seen_wall, case.walls)), "routes": ()})


def _only_fixings(verdict: Verdict) -> Verdict:
    kept = tuple(one for one in verdict.findings if one.rule == "fixing")
    return Verdict(verdict.pack, verdict.edition, kept)


def _hung(work: _Work) -> Outcome:
    hung, whys = work.hung(), [why for why in work.obstacles.values() if why]
    words = f"{len(hung)} of {len(work.task.items)} hang as they should"
    return len(hung) / len(work.task.items), "; ".join([words, *whys])


def _clear(work: _Work) -> Outcome:
    """Return the share of things of which every fixing is clear, by what can be seen."""
    danger = work.endangered(work.seen)
    clear = [name for name in work.hung() if name not in danger]
    words = [f"{len(clear)} of {len(work.task.items)} hang with no fixing where a cable may run"]
    words += [f"in danger: {listed(danger)}"] if danger else []
    if unseen := [name for name in work.endangered(work.whole) if name not in danger]:
        words.append(f"behind {listed(unseen)} a zone lies that nothing shows; this costs no marks")
    return len(clear) / len(work.task.items), "; ".join(words)


_CHECKS = {"hung": _hung, "clear": _clear}


def _moves(bundle: Bundle, work: _Work, answer: FixingsAnswer) -> Iterator[Message]:
    """Yield for each thing in danger the nearest place where it would be free."""
    wall = bundle.case.wall(work.task.wall)
    for item in work.task.items:
        if item.id in work.endangered(work.seen):
            here = answer.places[item.id]
            free = free_places(item, answer.places, work.task, wall, bundle.pack)
            place = safe_place(free, here)
            if place and _passes(bundle, work.task, item, place):
                yield Message(0, f"A free place for {item.id}", _way(item, here, place))


def _passes(bundle: Bundle, task: FixingsTask, item: Item, place: Point) -> bool:
    """Tell whether the engine finds nothing amiss at a place: what is suggested has been judged."""
    case = bundle.case_with(fixings=list(_fixings(item, place, task)))
    return not _only_fixings(judge(_as_seen(case), bundle.pack)).failures


def _way(item: Item, here: Point, place: Point) -> str:
    across, up = place[0] - here[0], place[1] - here[1]
    parts = (
        [f"{mm(abs(across), places=0)} mm to the {'right' if across > 0 else 'left'}"]
        if abs(across) >= 1
        else []
    )
    parts += [f"{mm(abs(up), places=0)} mm {'up' if up > 0 else 'down'}"] if abs(up) >= 1 else []
    return f"Move {item.id} {listed(parts)}. There no fixing lies where a cable may run, by what can be seen."
