"""Whether the parts of an exercise fit each other: criteria, names, and the model answer."""

from collections.abc import Iterable, Iterator
from typing import Any

from pydantic import BaseModel, ValidationError

from zonelib.exercise.kind import Kind
from zonelib.exercise.model import CriterionRule, Exercise, WrongAnswer
from zonelib.rules.words import templates
from zonelib.site.faults import Fault, faults_of, nearest
from zonelib.site.fields import Piece

__all__ = ["fitting_faults", "unknown"]


def unknown(path: str, names: Iterable[str], known: Iterable[str]) -> Iterator[Fault]:
    """Yield a fault for each name that is not among the known ones."""
    allowed = list(known)
    for name in names:
        if name not in allowed:
            yield Fault(path, f'"{name}"', (", ".join(allowed) or "nothing here") + nearest(name, allowed))


def fitting_faults(exercise: Exercise, kind: Kind[Piece]) -> Iterator[Fault]:
    """Yield what is amiss in criteria, aims and the model answer, as far as the case is not asked."""
    if exercise.variant is not None:
        yield Fault("variant", f'"{exercise.variant}"', "nothing: a room that is made gets its own name")
    above: list[str] = []
    for rule in exercise.criteria:
        yield from _criterion(rule, kind, above)
        above.append(rule.id)
    yield from unknown("aim", exercise.aim, templates())
    yield from _shape("model", exercise.model, kind.answer)
    for number, one in enumerate(exercise.wrong, start=1):
        yield from _shape(f"wrong.#{number}", one, WrongAnswer)


def _shape(path: str, data: dict[str, Any], form: type[BaseModel]) -> Iterator[Fault]:
    try:
        form.model_validate(data)
    except ValidationError as error:
        found = faults_of(error, data, form)
        yield from (Fault(f"{path}.{one.path}", one.found, one.allowed) for one in found)


def _criterion(rule: CriterionRule, kind: Kind[Piece], above: list[str]) -> Iterator[Fault]:
    path = f"criteria.{rule.id}"
    if rule.id in above:
        yield Fault(path, "this id twice", "each id once")
    if bool(rule.rules) == bool(rule.check):
        found = "both a check and rules" if rule.check else "neither a check nor rules"
        yield Fault(path, found, "one of the two")
    yield from unknown(f"{path}.check", [rule.check] if rule.check else [], kind.checks)
    yield from unknown(f"{path}.rules", rule.rules, kind.rules)
    yield from unknown(f"{path}.needs", rule.needs, above)
