"""What an exercise file says, whatever its kind."""

from typing import Annotated, Any, Literal, TypeVar

from pydantic import Field

from zonelib.site.fields import Id, Piece, Size

__all__ = ["CriterionRule", "Exercise", "Hints", "WrongAnswer"]

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
