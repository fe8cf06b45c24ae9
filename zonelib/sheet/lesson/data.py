"""A lesson's own file: its wall, its questions, its live pictures, and the clauses it meets."""

from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import Field, ValidationError, model_validator

from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Flag, Number, Piece
from zonelib.site.load import read_data

__all__ = ["REMOVED", "Choice", "Knob", "LessonFile", "Live", "Question", "read_lesson"]

REMOVED = "-"
"""A value that takes the key away, such as an RCD that is not there."""

Words = Annotated[str, Field(min_length=1)]


class Choice(Piece):
    """One way to answer a question, with the reason it gets."""

    words: Words
    why: Words
    right: Flag = False


class Question(Piece):
    """A question that one click answers; one choice is right."""

    ask: Words
    choices: Annotated[tuple[Choice, ...], Field(min_length=2)]

    @model_validator(mode="after")
    def _one_is_right(self) -> Self:
        right = sum(choice.right for choice in self.choices)
        if right != 1:
            raise ValueError(f"{right} choices are right; one has to be")
        return self


class Knob(Piece):
    """What a reader can change: a slider with `low` and `high`, a list with `choices`, or a tick.

    Attributes
    ----------
    words : str
        Its label, with the unit.
    set : tuple of str
        Where its value goes: paths of the case such as ``routes.A.depth`` or ``routes.A.points.1.0``,
        list members by their id or number from 0; or ``show.zones`` and ``show.view``.
    low, high, step : float
        Ends and step of a slider.
    start : any
        Where it stands at first; by default as the case has it.
    choices : dict
        Words to values; ``-`` takes the key away.
    """

    words: Words
    set: Annotated[tuple[str, ...], Field(min_length=1)]
    low: Number | None = None
    high: Number | None = None
    step: Number = 1
    start: Any = None
    choices: dict[str, Any] = Field(default_factory=dict)


class Live(Piece):
    """A picture to change.

    Attributes
    ----------
    case : str
        A case file; by default the lesson's.
    view : str
        ``front``, ``rear``, ``section``, ``room`` or ``joist``.
    wall : str
        The wall to show; by default that of the first cable, else the first.
    routes : tuple of str
        Cables to show and to judge; by default all.
    rules : tuple of str
        Rules whose verdict is told; by default every one that applies.
    zones : bool
        Whether zones are drawn.
    knobs : tuple of Knob
        What can be changed.
    """

    case: str = ""
    view: str = "front"
    wall: str = ""
    routes: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    zones: Flag = True
    knobs: Annotated[tuple[Knob, ...], Field(min_length=1)]


class LessonFile(Piece):
    """What a lesson's notebook draws on; clauses are names in the pack."""

    case: str
    clauses: tuple[str, ...] = ()
    questions: dict[str, Question] = Field(default_factory=dict)
    live: dict[str, Live] = Field(default_factory=dict)


def read_lesson(path: Path) -> LessonFile:
    """Read a lesson's file.

    Raises
    ------
    FileFault
        With every fault found in it.
    """
    data = read_data(path)
    try:
        return LessonFile.model_validate(data)
    except ValidationError as error:
        raise FileFault(str(path), list(faults_of(error, data, LessonFile))) from error
