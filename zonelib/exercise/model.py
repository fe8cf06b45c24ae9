"""What an exercise file says, whatever its kind."""

from typing import Annotated, Any, Literal, TypeVar

from pydantic import Field

from zonelib.site.fields import Id, Length, Number, Piece, Size

__all__ = ["Band", "CriterionRule", "Draw", "Exercise", "Hints", "Variants", "WrongAnswer"]

Words = Annotated[str, Field(min_length=1, max_length=20_000)]
ExerciseId = Annotated[str, Field(pattern=r"^[a-zA-Z0-9_\-]+$", max_length=60)]
"""The form nbgrader asks of a grade cell's id."""

Task = TypeVar("Task", bound=Piece)


class Hints(Piece):
    """Three steps of help: a fact, a pointer to the rule, a worked step."""

    fact: Words
    pointer: Words
    step: Words


class CriterionRule(Piece):
    """What marks are given for: rules of the pack, or one of the kind's own checks.

    `needs` names criteria above this one: it gives marks only where they are met.
    """

    id: Id
    marks: Size
    words: Words
    rules: tuple[Id, ...] = ()
    check: Id | None = None
    needs: tuple[Id, ...] = ()


class WrongAnswer(Piece):
    """A typical answer that loses marks: what it gets wrong, the answer, and the marks it earns."""

    words: Words
    answer: dict[str, Any]
    marks: Annotated[float, Field(strict=True, ge=0, le=1000)]


class Draw(Piece):
    """A number, or one value of several, that differs from room to room.

    Attributes
    ----------
    least, most, step : float
        In the file ``from``, ``to`` and ``step``: drawn is `least` and so many steps, at most `most`.
    values : tuple
        What else may be drawn instead; in the file one or the other.
    sets : tuple of str
        The places that take it, such as ``S1.x``, or follow it, such as ``D1.x = length - 1100``.
    """

    least: Number | None = Field(None, alias="from")
    most: Number | None = Field(None, alias="to")
    step: Size = 10
    values: Annotated[tuple[Number | Id, ...], Field(max_length=200)] = ()
    sets: Annotated[tuple[Words, ...], Field(min_length=1, max_length=40)]


class Band(Piece):
    """How hard a room may be; what is left out is taken from the exercise as it stands.

    Attributes
    ----------
    legs : tuple of int
        Fewest and most legs of the shortest run, or parts of the answer.
    margin : tuple of float
        Least and greatest room to be out [mm].
    traps : int
        How many of the typical answers still lose the same marks.
    """

    legs: tuple[int, int] | None = None
    margin: tuple[Length, Length] | None = None
    traps: Annotated[int, Field(ge=0, le=100)] | None = None


class Variants(Piece):
    """How rooms are made that differ and are equally hard; never part of a bundle.

    Attributes
    ----------
    draw : dict of str to Draw
        What is drawn, by name.
    band : Band
        How hard they may be.
    words : tuple of str
        Phrases of the texts with the numbers that change in braces, such as ``{S1.x} mm from the left``.
    """

    draw: Annotated[dict[Id, Draw], Field(min_length=1, max_length=40)]
    band: Band = Band()
    words: Annotated[tuple[Words, ...], Field(max_length=100)] = ()


class Exercise(Piece):
    """One exercise. Each kind has its own model, with the task in a table named after the kind.

    Attributes
    ----------
    id, kind, title, question : str
        Name, kind, heading, and the question in Markdown.
    case : dict
        The case's data, without the part the trainee adds.
    criteria : tuple of CriterionRule
        What marks are given for; empty takes the kind's own.
    model : dict
        An answer that earns full marks; never part of a bundle.
    wrong : tuple of dict
        Typical answers that lose marks, each with ``words``, ``answer`` and ``marks``.
    variants : Variants or None
        How other rooms are made of it; never part of a bundle.
    variant : str or None
        Which of these rooms it is; None for the exercise as it is written.
    """

    schema_version: Literal[1] = Field(alias="schema")
    id: ExerciseId
    kind: str
    title: Words
    question: Words
    difficulty: Annotated[int, Field(ge=1, le=5)] = 1
    aim: tuple[Id, ...] = ()
    show: tuple[Literal["zones"], ...] = ()
    case: dict[str, Any]
    criteria: tuple[CriterionRule, ...] = ()
    hints: Hints | None = None
    model: dict[str, Any]
    wrong: tuple[dict[str, Any], ...] = ()
    variants: Variants | None = None
    variant: Annotated[str, Field(pattern=r"^[0-9a-f]{1,40}$")] | None = None

    def task_as(self, form: type[Task]) -> Task:
        """Return what is asked, as the kind's own task.

        Raises
        ------
        TypeError
            If the exercise is of another kind.
        """
        task = getattr(self, self.kind, None)
        if not isinstance(task, form):
            raise TypeError(f"exercise {self.id} is of kind {self.kind} and has no {form.__name__}")
        return task
