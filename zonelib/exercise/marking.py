"""The one marking function: a bundle and an answer give a result, and nothing else matters."""

from dataclasses import dataclass, field
from typing import Literal

from zonelib.exercise.answer import AnswerRecord, read_answer
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import ROUTE_CRITERIA, Criterion
from zonelib.exercise.model import CriterionRule
from zonelib.exercise.route_marking import gained, sound
from zonelib.exercise.route_task import RouteAnswer
from zonelib.rules.engine import Verdict, judge
from zonelib.site.faults import FileFault
from zonelib.site.load import case_from_data
from zonelib.site.model import Case

__all__ = ["Result", "Status", "mark", "points_of"]

Status = Literal["marked", "empty", "unreadable", "other-bundle"]


@dataclass(frozen=True)
class Result:
    """A marked answer.

    Attributes
    ----------
    exercise, bundle : str
        What was answered.
    status : str
        ``marked``; ``empty``, ``unreadable`` or ``other-bundle`` earn nothing, for the reason in `note`.
    score, points : float
        Marks earned, and marks to be had.
    criteria : tuple of Criterion
        What the marks are for.
    verdict : Verdict or None
        Every finding on the answered route.
    case : Case or None
        The case with the answered route in it.
    note : str
        What there is to say beside the criteria.
    """

    exercise: str
    bundle: str
    status: Status
    score: float
    points: float
    criteria: tuple[Criterion, ...] = ()
    verdict: Verdict | None = field(default=None, repr=False)
    case: Case | None = field(default=None, repr=False)
    note: str = ""


def mark(bundle: Bundle, record: AnswerRecord) -> Result:
    """Mark an answer.

    Parameters
    ----------
    bundle : Bundle
        What is marked.
    record : AnswerRecord
        The answer, with the hash of the bundle it answers.

    Returns
    -------
    Result
        Always: an answer that cannot be judged earns nothing and says why.
    """
    if record.bundle != bundle.hash:
        note = "This answer belongs to another version of the exercise, so it is not judged."
        return _unjudged(bundle, "other-bundle", note)
    try:
        answer = read_answer(record)
        if answer.empty:
            return _unjudged(bundle, "empty", "Nothing is drawn yet.")
        return _judged(bundle, answer)
    except FileFault as fault:
        return _unjudged(bundle, "unreadable", f"The answer cannot be read. {fault.faults[0]}.")


def points_of(bundle: Bundle) -> float:
    """Return the marks to be had."""
    return sum(rule.marks for rule in _rules(bundle))


def _rules(bundle: Bundle) -> tuple[CriterionRule, ...]:
    return bundle.exercise.criteria or ROUTE_CRITERIA


def _unjudged(bundle: Bundle, status: Status, note: str) -> Result:
    criteria = tuple(
        Criterion(rule.id, rule.words, rule.marks, 0.0, met=False, reason=note) for rule in _rules(bundle)
    )
    return Result(bundle.exercise.id, bundle.hash, status, 0.0, points_of(bundle), criteria, note=note)


def _judged(bundle: Bundle, answer: RouteAnswer) -> Result:
    case = answered_case(bundle, answer)
    verdict = judge(case, bundle.pack)
    flaw = sound(bundle, answer, verdict)
    criteria = tuple(
        gained(rule, bundle, answer=answer, case=case, verdict=verdict, flaw=flaw) for rule in _rules(bundle)
    )
    score = min(max(round(sum(one.gained for one in criteria), 4), 0.0), points_of(bundle))
    points = points_of(bundle)
    return Result(bundle.exercise.id, bundle.hash, "marked", score, points, criteria, verdict, case)


def answered_case(bundle: Bundle, answer: RouteAnswer) -> Case:
    """Return the exercise's case with the answered route as its only route.

    Raises
    ------
    FileFault
        If the answer's numbers do not make a route.
    """
    route = bundle.exercise.route.case_route(answer)
    data = {**bundle.exercise.case, "routes": [route]}
    return case_from_data(data, bundle.pack.vocabulary, file="the answer")
