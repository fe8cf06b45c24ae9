"""How cuts in a joist are marked."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion, Outcome, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.joist.answer import CutHole, CutNotch, JoistAnswer
from zonelib.exercise.kinds.joist.criteria import SIZES
from zonelib.exercise.kinds.joist.serving import serving
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.exercise.model import CriterionRule
from zonelib.exercise.told import told
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.finding import Finding
from zonelib.rules.words import listed
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["answered_case", "mark"]

UNTIL = "This counts once no more is cut than is asked for."


@dataclass(frozen=True)
class _Work:
    """One answer while it is marked: what serves, and how many cuts are asked for."""

    bundle: Bundle
    answer: JoistAnswer
    served: dict[str, float]
    asked: int
    findings: tuple[Finding, ...]

    def clean(self, rules: Iterable[str]) -> list[str]:
        """Return the serving cuts that fail none of some rules; one that is too large fails them all."""
        known = set(rules) | SIZES
        failed = {
            name
            for one in self.findings
            if one.status == "fail" and one.rule in known
            for name in (one.subject, one.where.other)
        }
        return [name for name in self.served if name not in failed]

    def explained(self, rule: CriterionRule, decided: Criterion) -> Criterion:
        """Return a criterion as waiting where it is lost for what another criterion tells of."""
        own = any(one.rule in rule.rules for one in self.findings if one.status == "fail")
        return decided if own or rule.check or decided.met else replace(decided, waits=True)


def mark(bundle: Bundle, answer: JoistAnswer) -> Judged:
    """Judge the joist with all that is cut in it, then decide each criterion."""
    task = bundle.exercise.task_as(JoistTask)
    joist = _joist(bundle.case, task)
    served, flaw = serving(task, answer, joist), _flaw(task, answer)
    case = answered_case(bundle, answer, served)
    verdict = _of_answer(judge(case, bundle.pack), answer)
    work = _Work(bundle, answer, served, len(task.holes) + len(task.notches), verdict.findings)
    if flaw:
        criteria = withheld(bundle.criteria, flaw, check="served", until=UNTIL)
    else:
        criteria = decide(bundle.criteria, lambda rule: _outcome(rule, work))
        criteria = tuple(map(work.explained, bundle.criteria, criteria))
    return Judged(criteria, told(criteria, verdict), case, verdict)


def _joist(case: Case, task: JoistTask) -> Joist:
    return next(one for one in case.joists if one.id == task.joist)


def _flaw(task: JoistTask, answer: JoistAnswer) -> str:
    for asked, cut, word in (
        (task.holes, answer.holes, "hole"), (task.notches, answer.notches, "notch"),
    ):  # fmt: skip
        if len(cut) > len(asked):
            return f"{_count(len(asked), word)} asked for, and {len(cut)} cut. Each cut weakens the joist."
    chosen = [one.protection for one in answer.holes] + [one.protection for one in answer.notches]
    other = next((name for name in chosen if name not in task.protections), "")
    offered = ", ".join(task.protections)
    return f"The covering {other} is not on offer. Choose one of: {offered}." if other else ""


def _count(number: int, word: str) -> str:
    plural = {"hole": "holes", "notch": "notches"}[word]
    return f"1 {word} is" if number == 1 else f"{number or 'No'} {plural} are"


def answered_case(bundle: Bundle, answer: JoistAnswer, served: dict[str, float]) -> Case:
    """Return the case with the answer's cuts beside those that were there.

    Raises
    ------
    FileFault
        If the answer's names or numbers do not make a case.
    """
    holes = [
        {"id": name, **one.model_dump(), **({"cable_diameter": served[name]} if name in served else {})}
        for name, one in answer.named_holes().items()
    ]
    notches = [{"id": name, **one.model_dump()} for name, one in answer.named_notches().items()]
    task, joists = bundle.exercise.task_as(JoistTask), []
    for one in bundle.exercise.case["joists"]:
        more = {"holes": holes, "notches": notches} if one["id"] == task.joist else {}
        joists.append({**one, **{part: [*one.get(part, ()), *cuts] for part, cuts in more.items()}})
    return bundle.case_with(joists=joists)


def _of_answer(verdict: Verdict, answer: JoistAnswer) -> Verdict:
    """Return what is found of the answer's own cuts; what was there before is nobody's mistake here."""
    ours = {*answer.named_holes(), *answer.named_notches()}
    kept = tuple(one for one in verdict.findings if ours & {one.subject, one.where.other})
    return replace(verdict, findings=kept)


def _outcome(rule: CriterionRule, work: _Work) -> Outcome:
    return _CHECKS[rule.check](work) if rule.check else _by_rules(rule, work)


def _by_rules(rule: CriterionRule, work: _Work) -> Outcome:
    """Return the share of the asked cuts that serve and fail none of the rules."""
    clean = work.clean(rule.rules)
    failed = [one.reason for one in work.findings if one.rule in rule.rules and one.status == "fail"]
    words = f"{len(clean)} of {work.asked} cuts count here"
    return len(clean) / work.asked, "; ".join([*dict.fromkeys(failed), words])


def _served(work: _Work) -> Outcome:
    named = [*work.answer.named_holes(), *work.answer.named_notches()]
    idle = [name for name in named if name not in work.served]
    more = f"; {listed(idle)} {'serve' if len(idle) > 1 else 'serves'} none" if idle else ""
    return len(
        work.served
    ) / work.asked, f"{len(work.served)} of {work.asked} cables have a cut of their own{more}"


def _covering(work: _Work) -> Outcome:
    """Judge each covered cut again bare: where its cover then passes, the covering was not needed."""
    holes, notches = work.answer.named_holes(), work.answer.named_notches()
    named: dict[str, CutHole | CutNotch] = {**holes, **notches}
    covered = [name for name in work.served if named[name].protection != "none"]
    bare = answered_case(work.bundle, _bare(work.answer), work.served)
    found = judge(bare, work.bundle.pack).failures
    needed = {one.subject for one in found if one.rule == "joist-cover"}
    needless = sorted(name for name in covered if name not in needed)
    if needless:
        reason = f"{listed(needless)} would pass without a covering"
        return (len(work.served) - len(needless)) / work.asked, reason
    return len(work.served) / work.asked, "each covering is needed" if covered else "no covering is used"


def _bare(answer: JoistAnswer) -> JoistAnswer:
    none = {"protection": "none"}
    holes = tuple(one.model_copy(update=none) for one in answer.holes)
    notches = tuple(one.model_copy(update=none) for one in answer.notches)
    return JoistAnswer(holes=holes, notches=notches)


_CHECKS: dict[str, Callable[[_Work], Outcome]] = {"served": _served, "covering": _covering}
