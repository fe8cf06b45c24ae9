"""Mark what was handed in: one row for each exercise asked, whatever the submission looks like."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from zonelib.desk.choosing import choose, troubles_for
from zonelib.desk.contents import Contents, Found
from zonelib.desk.late import LateRule
from zonelib.desk.once import Once, answer_key
from zonelib.desk.plain import plain
from zonelib.desk.released import Released
from zonelib.desk.renewed import brought_up
from zonelib.desk.submissions import Submission
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result, Status, mark

__all__ = ["Marked", "mark_submission", "mark_trainee"]

NOTHING = "No answer to this exercise was handed in."
UNJUDGED = "There is nothing to judge."
OURS = (
    "This answer met a fault of the marking program, not of yours. It is kept. Your tutor marks it by hand."
)


marks_made: Once[Result] = Once()


@dataclass(frozen=True)
class Marked:
    """One row of the mark sheet, with the result behind it.

    `found` is the answer that was marked. `taken` are marks taken off for lateness, for the reason in `late`.
    """

    trainee: str
    assignment: str
    bundle: Bundle
    result: Result
    handed_in: str = ""
    note: str = ""
    found: Found | None = None
    taken: float = 0.0
    late: str = ""

    @property
    def score(self) -> float:
        """The marks given: those earned, less what was taken off."""
        return round(max(self.result.score - self.taken, 0.0), 4) if self.taken else self.result.score

    @property
    def source(self) -> str:
        """In which form the answer came, or ""."""
        return self.found.source if self.found else ""

    @property
    def exercise(self) -> str:
        """The exercise's name."""
        return self.bundle.exercise.id


def mark_trainee(
    submissions: list[Submission], released: Released, *, late: LateRule | None = None, every: bool = False
) -> Iterator[Marked]:
    """Mark all that one trainee handed in; with `every`, each assignment has its rows whatever is there."""
    seen, submissions = set(), brought_up(submissions, released.renewed)
    for submission in submissions:
        for assignment, whole in _assigned(submission, submissions, released):
            seen.add(assignment)
            bundles = released.bundles_for(assignment, submission.trainee)
            yield from mark_submission(whole, assignment, bundles, late=late)
    for assignment in released.assignments if every else ():
        if assignment not in seen:
            nothing = Submission(submissions[0].trainee, assignment, Contents())
            yield from mark_submission(nothing, assignment, released.assignments[assignment])


def _assigned(
    submission: Submission, every: list[Submission], released: Released
) -> Iterator[tuple[str, Submission]]:
    """Yield the assignments a submission is for; what lies outside their folders counts for all of them."""
    outside = sum((one.contents for one in every if not one.assignment), Contents())
    if submission.assignment:
        yield submission.assignment, replace(submission, contents=submission.contents + outside)
        return
    own = {one.assignment for one in every}
    for name in _answered(submission.contents, released):
        if name not in own:
            yield name, submission


def _answered(contents: Contents, released: Released) -> list[str]:
    """Return the assignments whose exercises are answered; the only one there is stands in for none."""
    where = released.exercises
    named = {where[one.record.exercise] for one in contents.found if one.record.exercise in where}
    named |= {where[one.exercise] for one in contents.troubles if one.exercise in where}
    return sorted(named) or (list(released.assignments) if len(released.assignments) == 1 else [])


def mark_submission(
    submission: Submission, assignment: str, bundles: Mapping[str, Bundle], *, late: LateRule | None = None
) -> Iterator[Marked]:
    """Mark one submission against the bundles of its assignment, each exercise by itself."""
    for bundle in bundles.values():
        found = choose(submission.contents, bundle)
        result = _judged(bundle, found) if found else _nothing(bundle, submission.contents)
        note = _note(submission.contents, bundle, found, result)
        when = submission.stamped or (found.handed_in if found else "")
        one = Marked(submission.trainee, assignment, bundle, result, when, note, found)
        yield _in_time(one, late, stamped=bool(submission.stamped)) if late and found else one


def _in_time(one: Marked, rule: LateRule, *, stamped: bool) -> Marked:
    """Return a row with what lateness takes off; a time that only the trainee states is told as such."""
    taken, words = rule.judge(one.handed_in, one.result.score)
    claim = "" if stamped or not one.handed_in else "The time is as the trainee's own file states it."
    beside = claim if taken else " ".join(filter(None, [words, claim]))
    return replace(one, taken=taken, late=words, note=plain(f"{one.note} {beside}"))


def _judged(bundle: Bundle, found: Found) -> Result:
    try:
        return marks_made.get(answer_key(bundle, found.record), lambda: mark(bundle, found.record))
    except Exception as error:  # noqa: BLE001 - one answer that trips the engine must cost no other trainee
        return _unmarked(bundle, "unreadable", f"{OURS} ({type(error).__name__})")


def _nothing(bundle: Bundle, contents: Contents) -> Result:
    troubles = [*map(str, troubles_for(bundle.exercise.id, contents)), *_renamed(bundle, contents)]
    if not troubles:
        return _unmarked(bundle, "empty", NOTHING)
    return _unmarked(bundle, "unreadable", " ".join(dict.fromkeys(troubles)))


def _renamed(bundle: Bundle, contents: Contents) -> Iterator[str]:
    """Say of answers saved for this bundle that they name another exercise; neither is judged by them."""
    for one in contents.found:
        if one.record.bundle == bundle.hash and one.record.exercise != bundle.exercise.id:
            told = "An answer names the exercise {}, but was saved for {}, so it is not judged."
            yield told.format(plain(one.record.exercise), bundle.exercise.id)


def _unmarked(bundle: Bundle, status: Status, note: str) -> Result:
    """Return a result of no marks with its reason."""
    record = AnswerRecord(
        schema=1, exercise=bundle.exercise.id, bundle=bundle.hash, revision=0, saved_at="", answer={}
    )
    empty = mark(bundle, record)
    criteria = tuple(replace(one, reason=UNJUDGED) for one in empty.criteria)
    return replace(empty, status=status, note=plain(note), criteria=criteria)


def _note(contents: Contents, bundle: Bundle, found: Found | None, result: Result) -> str:
    """Return what the mark sheet says beside the mark."""
    broken = [str(one) for one in troubles_for(bundle.exercise.id, contents)] if found else []
    used = [f"{words} Another copy was used." for words in broken]
    return plain(" ".join(dict.fromkeys(filter(None, [result.note, found.note if found else "", *used]))))
