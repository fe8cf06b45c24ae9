"""Bundles: an exercise with its case, pack and readings, frozen and named by its hash."""

import hashlib
import json
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar, cast

from pydantic import BaseModel, ValidationError

from zonelib.exercise.kind import Kind
from zonelib.exercise.kinds import exercise_model, kind_named
from zonelib.exercise.model import CriterionRule, Exercise
from zonelib.rules.course import Course
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.load import pack_for
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault, FileFault, faults_of
from zonelib.site.fields import Piece
from zonelib.site.load import case_from_data, read_data
from zonelib.site.model import Case

__all__ = ["Bundle", "freeze", "read_bundle"]

FORMAT = 1

UNTOLD = {"model", "wrong", "variants"}
"""What a trainee must not read: answers, and how the rooms of others are made."""

Facts = TypeVar("Facts", bound=Piece)
T = TypeVar("T")


@dataclass(frozen=True)
class Bundle:
    """What is marked: one JSON document, from which everything else follows.

    Attributes
    ----------
    data : dict
        ``format``, ``exercise`` (without model and wrong answers), ``pack``, and beside them the
        facts of the model answer that the kind needs to mark others.
    """

    data: dict[str, Any]
    _made: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    @cached_property
    def text(self) -> str:
        """The bundle as canonical JSON."""
        return json.dumps(
            self.data, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
        )

    @cached_property
    def hash(self) -> str:
        """SHA-256 of the canonical JSON, in hexadecimal."""
        return hashlib.sha256(self.text.encode()).hexdigest()

    @cached_property
    def exercise(self) -> Exercise:
        """The exercise; its model answer is not in it."""
        stated = self.data["exercise"]
        return exercise_model(str(stated.get("kind"))).model_validate({**stated, "model": {}})

    @cached_property
    def kind(self) -> Kind[Any]:
        """The kind of the exercise."""
        return kind_named(self.exercise.kind)

    @cached_property
    def pack(self) -> Pack:
        """The pack it is marked under."""
        return Pack.model_validate(self.data["pack"])

    @cached_property
    def case(self) -> Case:
        """The case as the exercise gives it, without an answer."""
        return self.case_with()

    @cached_property
    def verdict(self) -> Verdict:
        """Every finding on the case as the exercise gives it."""
        return judge(self.case, self.pack)

    def once(self, make: Callable[..., T], *given: Hashable) -> T:
        """Return what a function makes of the bundle, and of what is given: made once, for all answers."""
        key = make, *given
        if key not in self._made:
            self._made[key] = make(self, *given)
        return cast("T", self._made[key])

    @property
    def variant(self) -> str | None:
        """Which of the exercise's rooms it is; None for the exercise as it is written."""
        return self.exercise.variant

    @property
    def criteria(self) -> tuple[CriterionRule, ...]:
        """What marks are given for: the exercise's own, or the kind's."""
        return self.exercise.criteria or self.kind.criteria

    def facts_as(self, form: type[Facts]) -> Facts:
        """Return what is frozen of the model answer, as the kind's own facts."""
        return form.model_validate({key: self.data[key] for key in form.model_fields if key in self.data})

    def case_with(self, **parts: Any) -> Case:
        """Return the case with parts of an answer in it, such as ``routes=[...]``.

        Raises
        ------
        FileFault
            If the parts do not make a case.
        """
        return case_from_data({**self.exercise.case, **parts}, self.pack.vocabulary, file="the answer")

    def write(self, folder: Path) -> Path:
        """Write the bundle into a folder and return its path.

        It is named ``<exercise>.bundle.json``, or ``<exercise>.<variant>.bundle.json``.
        """
        name = ".".join(filter(None, (self.exercise.id, self.variant)))
        path = folder / f"{name}.bundle.json"
        path.write_text(self.text + "\n", encoding="utf-8", newline="\n")
        return path


def freeze(exercise: Exercise, *, folder: Path | None = None, course: Course | None = None) -> Bundle:
    """Freeze an exercise; a pack given by path counts from `folder`, a course gives readings and sign-off."""
    kind = kind_named(exercise.kind)
    stated = exercise.model_dump(mode="json", by_alias=True, exclude=UNTOLD, exclude_unset=True)
    rules = pack_for(exercise.case, folder=folder)
    if course:
        stated["case"], rules = course.chosen(rules, stated["case"]), course.signed(rules)
    pack = rules.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    case = case_from_data(stated["case"], rules.vocabulary)
    facts = kind.frozen(exercise, case, rules, kind.answer.model_validate(exercise.model))
    data = {"format": FORMAT, "exercise": stated, "pack": pack, **facts}
    return Bundle(json.loads(json.dumps(data, allow_nan=False)))


def read_bundle(path: str | Path) -> Bundle:
    """Read a bundle's file.

    Raises
    ------
    FileFault
        If it is not a bundle, or of a newer format.
    """
    data = read_data(Path(path))
    if data.get("format") != FORMAT:
        raise FileFault(str(path), [Fault("format", str(data.get("format", "nothing")), f"{FORMAT}")])
    bundle = Bundle(data)
    form: type[BaseModel] = Exercise
    try:
        _ = bundle.exercise, bundle.pack
        form = bundle.kind.facts
        bundle.facts_as(bundle.kind.facts)
    except ValidationError as error:
        raise FileFault(str(path), faults_of(error, data, form)) from error
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise FileFault(str(path), [Fault("the file", f"no {error}", "a bundle as released")]) from error
    return bundle
