"""The one marking function: a bundle and an answer give a result, and nothing else matters."""

from dataclasses import dataclass, field
from typing import Literal

from zonelib.exercise.answer import AnswerRecord, read_answer
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion, lost
from zonelib.exercise.told import Message
from zonelib.rules.engine import Verdict
from zonelib.site.faults import FileFault
from zonelib.site.fields import Piece
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
        Every finding on the answer, where the engine was asked.
    case : Case or None
        The case with the answer in it, where it makes one.
    note : str
        What there is to say beside the criteria.
    answer : Piece or None
        The answer as it was read.
    messages : tuple of Message
        What to change, numbered as on the picture.
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
    answer: Piece | None = field(default=None, repr=False)
    messages: tuple[Message, ...] = field(default=(), repr=False)


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
    if foreign := _foreign(bundle, record):
        return _unjudged(bundle, "other-bundle", foreign)
    try:
        answer = read_answer(record, bundle.kind)
        if bundle.kind.empty(answer):
            return _unjudged(bundle, "empty", bundle.kind.nothing)
        return _judged(bundle, answer)
    except FileFault as fault:
        return _unjudged(bundle, "unreadable", f"The answer cannot be read. {fault.faults[0]}.")


def _foreign(bundle: Bundle, record: AnswerRecord) -> str:
    """Return why an answer is not one to this bundle, or ""."""
    if record.bundle == bundle.hash and record.variant in (None, bundle.variant):
        return ""
    if record.variant == bundle.variant:
        return "This answer belongs to another version of the exercise, so it is not judged."
    theirs, ours = _named(record.variant), _named(bundle.variant)
    return f"This answer belongs to {theirs} of the exercise, and this is {ours}. So it is not judged."


def _named(variant: str | None) -> str:
    return f"variant {variant}" if variant else "the plain form"


def points_of(bundle: Bundle) -> float:
    """Return the marks to be had."""
    return sum(rule.marks for rule in bundle.criteria)


def _unjudged(bundle: Bundle, status: Status, note: str) -> Result:
    criteria = tuple(lost(rule, note) for rule in bundle.criteria)
    return Result(bundle.exercise.id, bundle.hash, status, 0.0, points_of(bundle), criteria, note=note)


def _judged(bundle: Bundle, answer: Piece) -> Result:
    found, points = bundle.kind.mark(bundle, answer), points_of(bundle)
    score = min(max(round(sum(one.gained for one in found.criteria), 4), 0.0), points)
    return Result(
        bundle.exercise.id, bundle.hash, "marked", score, points, found.criteria, found.verdict, found.case,
        answer=answer, messages=found.messages,
    )  # fmt: skip
