"""What an exercise file says."""

from typing import Annotated, Any, Literal

from pydantic import Field

from zonelib.exercise.route_task import RouteTask
from zonelib.site.fields import Id, Piece, Size

__all__ = ["CriterionRule", "Exercise", "Hints"]

Words = Annotated[str, Field(min_length=1, max_length=20_000)]
ExerciseId = Annotated[str, Field(pattern=r"^[a-zA-Z0-9_\-]+$", max_length=60)]
"""The form nbgrader asks of a grade cell's id."""


class Hints(Piece):
    """Three steps of help: a fact, a pointer to the rule, a worked step."""

    fact: Words
    pointer: Words
    step: Words


class CriterionRule(Piece):
    """What marks are given for: rules of the pack, or one of the exercise's own checks."""

    id: Id
    marks: Size
    words: Words
    rules: tuple[Id, ...] = ()
    check: Id | None = None


class Exercise(Piece):
    """One exercise.

    Attributes
    ----------
    id, kind, title, question : str
        Name, kind, heading, and the question in Markdown.
    case : dict
        The case's data, without the part the trainee adds.
    route : RouteTask
        What is given of the cable, and what the trainee may set.
    criteria : tuple of CriterionRule
        What marks are given for; empty takes the kind's own.
    model : dict
        An answer that earns full marks; never part of a bundle.
    wrong : tuple of dict
        Typical answers that lose marks, each with ``words``, ``answer`` and ``marks``.
    """

    schema_version: Literal[1] = Field(alias="schema")
    id: ExerciseId
    kind: Literal["route"]
    title: Words
    question: Words
    difficulty: Annotated[int, Field(ge=1, le=5)] = 1
    aim: tuple[Id, ...] = ()
    show: tuple[Literal["zones"], ...] = ()
    case: dict[str, Any]
    route: RouteTask
    criteria: tuple[CriterionRule, ...] = ()
    hints: Hints | None = None
    model: dict[str, Any]
    wrong: tuple[dict[str, Any], ...] = ()
