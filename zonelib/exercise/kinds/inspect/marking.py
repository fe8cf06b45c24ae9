"""How an inspection is marked."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion, Outcome, decide
from zonelib.exercise.fitting import unknown
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.inspect.answer import InspectAnswer
from zonelib.exercise.kinds.inspect.comparing import HALF, Compared, Entry, entries
from zonelib.exercise.kinds.inspect.targets import Target, failing, inspected, mends, route_length, targets
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.model import CriterionRule
from zonelib.exercise.told import Message, capital, percent
from zonelib.rules.engine import Verdict
from zonelib.rules.words import listed, mm
from zonelib.site.faults import Fault, FileFault

__all__ = ["compared", "mark"]

CHOICES = ("clause", "remedy", "why")
"""What is chosen for each stretch."""

UNTIL = "This counts once more of what fails is marked than of what passes."


@dataclass(frozen=True)
class _Work:
    """One answer while it is marked."""

    bundle: Bundle
    task: InspectTask
    answer: InspectAnswer
    seen: Compared
    passing: dict[str, bool]
    judged: dict[tuple[tuple[int, ...], str | None], bool] = field(default_factory=dict)

    def mended(self, target: Target, entry: Entry) -> bool:
        chosen = next((one for one in self.task.remedies if one.id == entry.remedy), None)
        key = target.numbers, entry.remedy
        if key not in self.judged:  # the engine is asked once for each, criteria and messages ask often
            self.judged[key] = chosen is not None and mends(self.bundle, chosen, target)
        return self.judged[key]

    def because(self, target: Target, entry: Entry) -> bool:
        return any(one.rule == target.rule for one in self.task.whys if one.id == entry.why)


def mark(bundle: Bundle, answer: InspectAnswer) -> Judged:
    """Judge the installation, then decide each criterion."""
    task = bundle.exercise.task_as(InspectTask)
    _refuse_unknown(bundle, task, answer)
    verdict, routes = bundle.verdict, inspected(bundle.case, task)
    seen = compared(bundle, answer, verdict)
    failed = {one.subject for _, one in failing(verdict, routes)}
    work = _Work(bundle, task, answer, seen, {route.id: route.id not in failed for route in routes})
    criteria = decide(bundle.criteria, lambda rule: _outcome(rule, work))
    messages = tuple(_messages(work, len(verdict.failures)))
    return Judged(tuple(map(_explained, bundle.criteria, criteria)), messages, bundle.case, verdict)


def _refuse_unknown(bundle: Bundle, task: InspectTask, answer: InspectAnswer) -> None:
    routes = [route.id for route in inspected(bundle.case, task)]
    chosen = {
        "route": ([one.route for one in answer.stretches], routes),
        "clause": ([one.clause for one in answer.stretches if one.clause], task.clauses),
        "remedy": ([one.remedy for one in answer.stretches if one.remedy], [one.id for one in task.remedies]),
        "why": ([one.why for one in answer.stretches if one.why], [one.id for one in task.whys]),
        "passes": (list(answer.passes), routes),
    }
    amiss: list[Fault] = []
    for part, (names, known) in chosen.items():
        amiss += unknown(part if part == "passes" else f"stretches.{part}", names, known)
    if amiss:
        raise FileFault("the answer", amiss)


def compared(bundle: Bundle, answer: InspectAnswer, verdict: Verdict) -> Compared:
    """Return marked stretches beside those that fail."""
    task = bundle.exercise.task_as(InspectTask)
    routes = inspected(bundle.case, task)
    lengths = {route.id: route_length(route) for route in routes}
    marked = entries(answer, lengths, task.slack)
    return Compared(targets(verdict, routes, task), marked, lengths, task.slack)


def _outcome(rule: CriterionRule, work: _Work) -> Outcome:
    if rule.check != "stretches" and work.seen.share <= 0:
        return 0.0, UNTIL
    return _CHECKS[rule.check or "stretches"](work)


def _explained(rule: CriterionRule, decided: Criterion) -> Criterion:
    """Return what waits for the stretches as waiting; the messages tell of each choice by itself."""
    return replace(decided, waits=not decided.met and rule.check != "new-work")


def _stretches(work: _Work) -> Outcome:
    seen = work.seen
    found = [f"{_place(one)}: {percent(seen.found(one))} marked" for one in seen.targets]
    words = [listed(found)]
    words += [f"as much as {seen.beyond:.2g} stretches is marked though it passes"] if seen.beyond else []
    return seen.share, "; ".join(words)


def _place(target: Target) -> str:
    if target.span is None:
        return f"{target.route} as a whole"
    low, high = (mm(mark, places=0) for mark in target.span)
    return f"{target.route} from {low} to {high} mm"


def _chosen(work: _Work, right: Callable[[Target, Entry], bool], words: str) -> Outcome:
    """Return the share of failing stretches with the right choice; one marked in excess takes one off."""
    seen = work.seen
    if not seen.targets:
        return 1.0, "nothing fails, so there is nothing to choose"
    good = sum(entry is not None and right(target, entry) for target, entry in seen.pairs)
    share = max(0.0, (good - seen.extra) / len(seen.targets))
    more = f"; {seen.extra} more marked that answer none" if seen.extra else ""
    return share, f"{words} for {good} of {len(seen.targets)}{more}"


def _clause(work: _Work) -> Outcome:
    return _chosen(work, lambda target, entry: entry.clause in target.clauses, "the clause is named")


def _remedy(work: _Work) -> Outcome:
    return _chosen(work, work.mended, "the remedy mends it")


def _why(work: _Work) -> Outcome:
    return _chosen(work, work.because, "the reason holds")


def _new_work(work: _Work) -> Outcome:
    """Return the share of cables judged as the engine does, less those judged otherwise."""
    same = [name for name, said in work.answer.passes.items() if said == work.passing[name]]
    other = [name for name in work.answer.passes if name not in same]
    told = f"; {listed(sorted(other))} otherwise" if other else ""
    share = max(0.0, (len(same) - len(other)) / len(work.passing))
    return share, f"{len(same)} of {len(work.passing)} cables judged as the rules judge them{told}"


_CHECKS: dict[str, Callable[[_Work], Outcome]] = {
    "stretches": _stretches,
    "clause": _clause,
    "remedy": _remedy,
    "why": _why,
    "new-work": _new_work,
}


def _messages(work: _Work, failures: int) -> Iterator[Message]:
    """Yield a message for each failing stretch that is not answered in full, then for what passes."""
    asked = {rule.check for rule in work.bundle.criteria}
    for target, entry in work.seen.pairs:
        text = " ".join(_lacking(work, target, entry, asked))
        if text:
            yield Message(
                target.numbers[0],
                capital(target.finding.reason),
                f"{text} {target.finding.text}",
                target.rule,
            )
    n = failures
    for route in work.seen.lengths:
        for low, high in work.seen.strayed(route):
            n += 1
            text = f"{route} passes from {mm(low, places=0)} to {mm(high, places=0)} mm, and is marked there."
            yield Message(n, "Marked, though it passes", text)
    for entry in work.seen.needless_wholes:
        yield Message(
            0, "Marked, though it passes", f"{entry.route} as a whole meets the rules for a whole cable."
        )
    if "new-work" in asked:
        yield from _on_new_work(work)


def _lacking(work: _Work, target: Target, entry: Entry | None, asked: set[str | None]) -> Iterator[str]:
    found = work.seen.found(target)
    if entry is None and found >= HALF and asked & set(CHOICES):
        yield f"{_place(target)} fails for this reason too: mark it once more for it."
    elif found < 1:
        yield f"{_place(target)} fails, and is not marked or not all of it."
    if entry is None:
        return
    if "clause" in asked and entry.clause not in target.clauses:
        yield f"The clause is {target.clauses[0]}."
    if "remedy" in asked and not work.mended(target, entry):
        yield "The remedy chosen does not mend it." if entry.remedy else "No remedy is chosen."
    if "why" in asked and not work.because(target, entry):
        yield "It matters for another reason." if entry.why else "It is not said why it matters."


def _on_new_work(work: _Work) -> Iterator[Message]:
    for name, passing in work.passing.items():
        if work.answer.passes.get(name) is not passing:
            words = "would pass" if passing else "would not pass"
            yield Message(0, "As new work", f"{name} {words} as new work by these rules.")
