"""A kind of exercise: all that differs from one to the next, in one object."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from zonelib.exercise.criteria import Criterion
from zonelib.exercise.model import CriterionRule, Exercise
from zonelib.exercise.told import Message
from zonelib.rules.engine import Verdict
from zonelib.rules.pack import Pack
from zonelib.site.fields import Piece
from zonelib.site.model import Case

if TYPE_CHECKING:
    from zonelib.draw import Scene
    from zonelib.exercise.bundle import Bundle
    from zonelib.exercise.marking import Result
    from zonelib.site.faults import Fault

__all__ = ["Judged", "Kind", "NoFacts"]

Answer = TypeVar("Answer", bound=Piece)


class NoFacts(Piece):
    """For a kind that needs nothing of its model answer to mark others."""


@dataclass(frozen=True)
class Judged:
    """What a kind makes of an answer.

    Attributes
    ----------
    criteria : tuple of Criterion
        One for each that the exercise asks, in its order.
    messages : tuple of Message
        What to change, numbered as on the picture.
    case : Case or None
        The case with the answer in it, where that makes sense.
    verdict : Verdict or None
        Every finding of the engine, where it was asked.
    """

    criteria: tuple[Criterion, ...]
    messages: tuple[Message, ...] = ()
    case: Case | None = None
    verdict: Verdict | None = None


@dataclass(frozen=True, kw_only=True)
class Kind(Generic[Answer]):
    """One kind of exercise.

    Attributes
    ----------
    name : str
        As ``kind = "..."`` says it; the task stands in a table of that name.
    task, answer, facts : type
        Models of what is asked, of an answer, and of what a bundle holds of the model answer.
    criteria : tuple of CriterionRule
        What marks are given for unless an exercise says otherwise.
    checks, rules : tuple of str
        What a criterion may name: checks of the kind's own, and rules of the engine.
    nothing : str
        What is said of an empty answer.
    empty : callable
        Tell whether an answer holds nothing.
    canonical : callable
        Return the data of an answer that is not empty, so that two are equal where they differ only in how
        they were drawn.
    faults : callable
        Yield what does not fit between the exercise, its case and its pack.
    frozen : callable
        Return the data of the facts that marking needs, from exercise, case, pack and model answer.
    mark : callable
        Decide the criteria, and explain them. Pure; raises `FileFault` only for what is no answer.
    scenes : callable
        Draw a marked answer.
    blank : callable
        Draw the question, before any answer.
    pad : bool
        Whether a notebook has a pad to answer it on.
    beyond_pad : callable
        Return what a notebook's pad cannot show of an exercise of this kind, or "".
    """

    name: str
    task: type[Piece]
    answer: type[Answer]
    facts: type[Piece] = NoFacts
    criteria: tuple[CriterionRule, ...]
    checks: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    nothing: str
    empty: Callable[[Answer], bool]
    canonical: Callable[[Answer], Any]
    faults: Callable[[Exercise, Case, Pack], Iterator[Fault]]
    frozen: Callable[[Exercise, Case, Pack, Answer], dict[str, Any]] = lambda *_: {}
    mark: Callable[[Bundle, Answer], Judged]
    scenes: Callable[[Bundle, Result], Sequence[Scene]]
    blank: Callable[[Bundle], Sequence[Scene]]
    pad: bool = False
    beyond_pad: Callable[[Exercise], str] = lambda _: ""
