"""Faults of a file: what was found, what is allowed, and where, all at once."""

from __future__ import annotations

import difflib
import typing
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ValidationError

if typing.TYPE_CHECKING:
    from pydantic_core import ErrorDetails

__all__ = ["Fault", "FileFault", "Loc", "faults_of", "key_path", "nearest"]

Loc = tuple[int | str, ...]

LINE = 60
"""A value is cut to this many characters."""

LONGEST = 1000
"""A part of a message is cut in its middle to about this many characters."""

NONE_THERE = "none, as the file names none"

_ECHOES = {"default_factory_not_called"}
"""What pydantic reports only because something else in the same table is at fault."""

_BOUNDS = {
    "greater_than": "above {gt:,.12g}",
    "greater_than_equal": "at least {ge:,.12g}",
    "less_than_equal": "at most {le:,.12g}",
    "less_than": "below {lt:,.12g}",
    "too_short": "at least {min_length} entries",
    "too_long": "at most {max_length} entries",
    "string_too_short": "at least {min_length} character",
    "string_too_long": "at most {max_length} characters",
    "string_pattern_mismatch": "text of the form {pattern}",
    "finite_number": "a finite number",
    "float_type": "a number",
    "int_type": "a whole number",
    "bool_type": "true or false",
    "string_type": "text in quotes",
    "string_unicode": "letters that can be written",
    "tuple_type": "a list in square brackets",
    "list_type": "a list in square brackets",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "literal_error": "{expected}",
    "wrong_count": "one for all, or one per leg ({legs})",
}


@dataclass(frozen=True)
class Fault:
    """One mistake in a file.

    Attributes
    ----------
    path : str
        Key path, with ids where the file gives them: ``walls.W1.openings.D1.width``.
    found, allowed : str
        What stands there, and what may stand there.
    """

    path: str
    found: str
    allowed: str

    def __post_init__(self) -> None:
        """Keep each part to one printable line: what stands in a file may be anything, and names may lack."""
        for part, blank in (("path", ""), ("found", "nothing"), ("allowed", NONE_THERE)):
            object.__setattr__(self, part, _one_line(getattr(self, part)) or blank)

    def __str__(self) -> str:
        """Return the fault as one line."""
        return f"{self.path}: found {self.found}; allowed: {self.allowed}"


def _one_line(text: str) -> str:
    if len(text) > LONGEST:
        text = f"{text[: LONGEST // 2]} ... {text[-LONGEST // 2 :]}"
    if text.isprintable():
        return text
    return "".join(one if one.isprintable() else one.encode("unicode_escape").decode() for one in text)


class FileFault(ValueError):
    """A file that cannot be used; keeps every fault found in it."""

    def __init__(self, file: str, faults: Sequence[Fault]) -> None:
        self.file = file
        self.faults = tuple(faults)
        super().__init__("\n".join(f"{file}: {fault}" for fault in self.faults))


def key_path(data: Any, loc: Loc) -> str:
    """Return a location as words, naming list entries by their id where they have one."""
    words: list[str] = []
    for part in loc:
        data = _step(data, part)
        words.append(_entry_name(data, part) if isinstance(part, int) else part)
    return ".".join(words) or "the file"


def _entry_name(entry: Any, position: int) -> str:
    known = entry if isinstance(entry, Mapping) else {}
    identity, number = known.get("id"), known.get("number")
    if isinstance(identity, str) and identity:
        return identity
    return str(number) if isinstance(number, int) else f"#{position + 1}"


def _step(data: Any, part: int | str) -> Any:
    try:
        return data[part]
    except (KeyError, IndexError, TypeError):
        return None


def nearest(found: object, names: Iterable[str]) -> str:
    """Return ``did you mean ...`` for a close name, or nothing."""
    close = difflib.get_close_matches(str(found), list(names), n=1, cutoff=0.6)
    return f" (did you mean {close[0]}?)" if close else ""


def faults_of(error: ValidationError, data: Any, model: type[BaseModel]) -> list[Fault]:
    """Turn pydantic's errors into faults in our words."""
    details = (detail for detail in error.errors(include_url=False) if detail["type"] not in _ECHOES)
    return [_fault(detail, data, model) for detail in details]


def _fault(detail: ErrorDetails, data: Any, model: type[BaseModel]) -> Fault:
    loc = _as_written(detail["loc"], data)
    return Fault(key_path(data, loc), _found(detail), _allowed(detail, model))


def _as_written(loc: Loc, data: Any) -> Loc:
    """Drop the position of a value the file gives once for all legs."""
    if loc and isinstance(loc[-1], int):
        holder = data
        for part in loc[:-1]:
            holder = _step(holder, part)
        if not isinstance(holder, list | tuple):
            return loc[:-1]
    return loc


def _found(detail: ErrorDetails) -> str:
    if detail["type"] == "missing":
        return "nothing"
    if detail["type"] == "extra_forbidden":
        return "a key that is not known here"
    context = detail.get("ctx", {})
    return shown(context.get("found", detail["input"]))


def shown(value: object) -> str:
    """Return a value as a reader would write it, cut to a line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Mapping):
        return "a table"
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= LINE else text[: LINE - 3] + "..."


def _allowed(detail: ErrorDetails, model: type[BaseModel]) -> str:
    kind, context = detail["type"], detail.get("ctx", {})
    if kind == "missing":
        return "this key is required" if isinstance(detail["loc"][-1], str) else "one more value here"
    if kind == "extra_forbidden":
        keys = _keys_at(model, detail["loc"][:-1])
        return ", ".join(keys) + nearest(detail["loc"][-1], keys)
    if kind == "unknown_name":
        return ", ".join(context["allowed"]) + nearest(detail["input"], context["allowed"])
    if kind == "float_type" and type(detail["input"]) is int:
        return "a number of a size that walls have"
    if kind in _BOUNDS:
        return _BOUNDS[kind].format(**context)
    return detail["msg"]


def _keys_at(model: type[BaseModel], loc: Loc) -> list[str]:
    """Return the keys of the table at a location, following the models' annotations."""
    for part in loc:
        fields = {field.alias or name: field for name, field in model.model_fields.items()}
        inner = _model_in(fields[part].annotation) if part in fields else None
        model = inner or model
    return [field.alias or name for name, field in model.model_fields.items()]


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """Return the first model named in an annotation such as ``tuple[Wall, ...]``."""
    parts = typing.get_args(annotation)
    if not parts:
        return annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None
    found = (_model_in(part) for part in parts)
    return next((inner for inner in found if inner), None)
