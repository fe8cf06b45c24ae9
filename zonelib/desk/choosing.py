"""Choose which of several saved answers to one exercise is marked."""

from collections.abc import Sequence

from zonelib.desk.contents import Contents, Found, Source
from zonelib.desk.walk import Trouble
from zonelib.exercise.bundle import Bundle

__all__ = ["choose", "troubles_for"]

ORDER: tuple[Source, ...] = ("notebook", "answers folder", "hand-in file")
"""At the same revision the later of these wins."""


def choose(contents: Contents, bundle: Bundle) -> Found | None:
    """Return the answer to mark: of this bundle before others, then of the highest revision."""
    answers = [one for one in contents.found if one.record.exercise == bundle.exercise.id]

    def rank(one: Found) -> tuple[bool, int, int]:
        return one.record.bundle == bundle.hash, one.record.revision, ORDER.index(one.source)

    return max(answers, key=rank, default=None)


def troubles_for(exercise: str, contents: Contents) -> Sequence[Trouble]:
    """Return what kept this exercise's answer, or an answer to no named exercise, from being read."""
    return [one for one in contents.troubles if one.exercise in (exercise, "")]
