"""What the class seems to have misunderstood, with an answer that shows it: as marking found it."""

from collections import defaultdict
from dataclasses import dataclass

from zonelib.coach.diagnosis.misconception import Misconception, library
from zonelib.desk.report.reading import ClassMarks, Row

__all__ = ["Misheld", "Misunderstood", "misunderstood"]


@dataclass(frozen=True)
class Misheld:
    """A misconception with who seems to hold it, and one answer that it explains."""

    misconception: Misconception
    trainees: tuple[str, ...]
    example: Row


@dataclass(frozen=True)
class Misunderstood:
    """The misconceptions of a class, the commonest first.

    Attributes
    ----------
    found : tuple of Misheld
        What explains somebody's answers clearly better than slips, or than another misconception.
    looked_at : int
        Trainees who lost marks, so that their answers were looked at.
    open : int
        Those of them for whom none is named: slips explain their answers as well, or several do.
    """

    found: tuple[Misheld, ...]
    looked_at: int
    open: int


def misunderstood(marks: ClassMarks) -> Misunderstood:
    """Return what the trainees of a class seem to have misunderstood."""
    held: dict[str, list[Row]] = defaultdict(list)
    for row in sorted(marks.rows, key=lambda one: one.trainee):
        if row.misconception in library() and row.answer is not None and row.bundle in marks.bundles:
            held[row.misconception].append(row)
    found = [_misheld(name, rows) for name, rows in held.items()]
    named = {trainee for one in found for trainee in one.trainees}
    lost = {row.trainee for row in marks.rows if row.lost_marks}
    ranked = sorted(found, key=lambda one: (-len(one.trainees), one.misconception.id))
    return Misunderstood(tuple(ranked), len(lost), len(lost - named))


def _misheld(name: str, rows: list[Row]) -> Misheld:
    return Misheld(library()[name], tuple(dict.fromkeys(row.trainee for row in rows)), rows[0])
