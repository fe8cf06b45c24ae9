"""Places in an exercise's data, by names such as ``S1.x``, and simple sums over them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from zonelib.site.faults import Fault, FileFault, nearest

__all__ = ["PlaceFlaw", "Places", "is_number"]

TYPICAL = "typical"
"""What a file's typical answers are called here: ``typical.1`` is the first one's answer."""

AXES = {"x": 0, "y": 1}
ROOTS: dict[str, list[str | int]] = {"case": ["case"], "model": ["model"], TYPICAL: ["wrong"]}
SIGNS = {
    "+": lambda one, other: one + other,
    "-": lambda one, other: one - other,
    "*": lambda one, other: one * other,
    "/": lambda one, other: one / other,
}


class PlaceFlaw(FileFault):
    """A name or a sum that leads nowhere."""

    def __init__(self, path: str, found: str, allowed: str) -> None:
        super().__init__("the exercise", [Fault(path, found, allowed)])


@dataclass(frozen=True)
class Places:
    """The places of one exercise's data.

    A name begins with the id of a thing of the case or the task, with a key of the task, or with ``case``,
    ``model``, ``typical`` or the kind. Entries of lists are counted from 1; a point has x and y.

    Attributes
    ----------
    data : dict
        The exercise's data, as it is written and changed.
    """

    data: dict[str, Any]

    def value(self, name: str) -> Any:
        """Return what stands at a place."""
        node: Any = self.data
        for step in self._steps(name):
            node = node[step]
        return node

    def put(self, name: str, value: Any) -> None:
        """Write a value to a place."""
        *path, last = self._steps(name)
        node: Any = self.data
        for step in path:
            node = node[step]
        node[last] = value

    def sum(self, text: str, known: Mapping[str, Any]) -> Any:
        """Return the value of a place, a known name or a number, or of several with signs between them.

        Signs are taken from left to right and have a space on each side.
        """
        parts = text.split()
        value = self._operand(parts[0] if parts else "", known)
        if len(parts) % 2 == 0:
            raise PlaceFlaw("variants", f'"{text}"', "names and numbers with + - * / between them")
        for sign, operand in zip(parts[1::2], parts[2::2], strict=True):
            if sign not in SIGNS:
                raise PlaceFlaw("variants", f'"{sign}" in "{text}"', "+ - * / with a space on each side")
            value = SIGNS[sign](_number(value, text), _number(self._operand(operand, known), text))
        return value

    def _operand(self, name: str, known: Mapping[str, Any]) -> Any:
        if name in known:
            return known[name]
        return float(name) if is_number(name) else self.value(name)

    def _steps(self, name: str) -> list[str | int]:
        first, *rest = name.split(".")
        if first == TYPICAL and rest:
            rest.insert(1, "answer")
        path = self._start(first, name)
        node: Any = self.data
        for step in path:
            node = node[step]
        for part in rest:
            found = _step(node, part)
            if found is None:
                allowed = ", ".join(_names(node)) or "nothing below it"
                raise PlaceFlaw("variants", f'"{part}" in "{name}"', allowed)
            path.append(found)
            node = node[found]
        return path

    def _start(self, first: str, name: str) -> list[str | int]:
        kind = self.data["kind"]
        if first in ROOTS or first == kind:
            return list(ROOTS.get(first, [kind]))
        found = self._things.get(first, ())
        if len(found) > 1:
            twice = f'"{name}", where two things are named {first}'
            raise PlaceFlaw("variants", twice, "the whole path, from case on")
        if found:
            return list(found[0])
        if first in self.data[kind]:
            return [kind, first]
        allowed = [*ROOTS, kind, *self._things, *self.data[kind]]
        raise PlaceFlaw("variants", f'"{name}"', ", ".join(allowed) + nearest(first, allowed))

    @cached_property
    def _things(self) -> dict[str, list[list[str | int]]]:
        """The paths of each id: a draw changes what a thing is like, and no id."""
        found: dict[str, list[list[str | int]]] = {}
        for root in ("case", self.data["kind"]):
            for name, path in _ids(self.data[root], [root]):
                found.setdefault(name, []).append(path)
        return found


def is_number(text: str) -> bool:
    """Tell whether a sum is a mere number: what it sets stays the same in every room."""
    try:
        float(text)
    except ValueError:
        return False
    return True


def _ids(node: Any, path: list[str | int]) -> Iterator[tuple[str, list[str | int]]]:
    if isinstance(node, dict):
        if len(path) > 1 and isinstance(node.get("id"), str):
            yield node["id"], path
        for key, inner in node.items():
            yield from _ids(inner, [*path, key])
    elif isinstance(node, list):
        for at, inner in enumerate(node):
            yield from _ids(inner, [*path, at])


def _step(node: Any, part: str) -> str | int | None:
    """Return the key or the position that a part of a name means."""
    if isinstance(node, dict):
        return part if part in node else None
    if not isinstance(node, list):
        return None
    ids = [one.get("id") if isinstance(one, dict) else None for one in node]
    if part in ids:
        return ids.index(part)
    at = AXES[part] if part in AXES and len(node) == len(AXES) else int(part) - 1 if part.isdigit() else -1
    return at if 0 <= at < len(node) else None


def _names(node: Any) -> list[str]:
    if isinstance(node, dict):
        return list(node)
    return [str(at) for at in range(1, len(node) + 1)] if isinstance(node, list) else []


def _number(value: Any, text: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise PlaceFlaw("variants", f'{value!r} in "{text}"', "a number")
    return value
