"""Set a value in the data of a case, before it is read as any file is."""

from collections.abc import Iterable
from copy import deepcopy
from typing import Any

from zonelib.sheet.lesson.data import REMOVED, Knob
from zonelib.sheet.trouble import SheetTrouble

__all__ = ["changed", "start_of"]


def changed(data: dict[str, Any], knobs: Iterable[Knob], values: Iterable[Any]) -> dict[str, Any]:
    """Return a copy of a case's data with each knob's value in its places."""
    new = deepcopy(data)
    for knob, value in zip(knobs, values, strict=True):
        for path in knob.set:
            _put(new, path.split("."), value)
    return new


def start_of(knob: Knob, data: dict[str, Any]) -> Any:
    """Return where a knob stands at first: as told, else as the case has it, else its first choice."""
    if knob.start is not None:
        return knob.start
    *way, last = knob.set[0].split(".")
    holder = _follow(data, way)
    value = holder[int(last)] if isinstance(holder, list) else holder.get(last, REMOVED)
    if knob.choices and value not in knob.choices.values():
        return next(iter(knob.choices.values()))
    return value


def _put(data: dict[str, Any], path: list[str], value: Any) -> None:
    *way, last = path
    holder = _follow(data, way)
    if not isinstance(holder, dict | list):
        raise SheetTrouble(f"{'.'.join(path)} cannot be set: {way[-1]} is one value there, {holder}.")
    if isinstance(holder, list):
        holder[int(last)] = value
    elif value == REMOVED:
        holder.pop(last, None)
    else:
        holder[last] = value


def _follow(data: Any, way: list[str]) -> Any:
    for name in way:
        data = _member(data, name) if isinstance(data, list) else data.setdefault(name, {})
    return data


def _member(items: list[Any], name: str) -> Any:
    """Return a member by its id, or by its number from 0."""
    for item in items:
        if isinstance(item, dict) and item.get("id") == name:
            return item
    if name.isdigit() and int(name) < len(items):
        return items[int(name)]
    there = ", ".join(str(item.get("id")) for item in items if isinstance(item, dict))
    raise SheetTrouble(f"The case has no {name}. It has: {there}.")
