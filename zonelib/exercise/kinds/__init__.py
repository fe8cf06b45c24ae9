"""The kinds of exercises, found by name. A kind is loaded when it is first asked for."""

from functools import cache
from importlib import import_module
from typing import Annotated, Any

from pydantic import AfterValidator, create_model
from pydantic_core import PydanticCustomError

from zonelib.exercise.kind import Kind
from zonelib.exercise.model import Exercise

__all__ = ["NAMES", "exercise_model", "kind_named"]

NAMES = ("route", "zones", "joist", "fixings", "inspect", "protect", "choose", "number")
"""Each is a package beside this file that holds one ``KIND``."""


def kind_named(name: str) -> Kind[Any]:
    """Return a kind.

    Raises
    ------
    KeyError
        If there is none of that name.
    """
    if name not in NAMES:
        raise KeyError(name)
    kind = import_module(f"{__name__}.{name}").KIND
    if not isinstance(kind, Kind):
        raise TypeError(f"{__name__}.{name} holds no Kind")
    return kind


@cache
def exercise_model(name: str) -> type[Exercise]:
    """Return the model of an exercise of a kind; of an unknown kind, one that names the known ones."""
    if name not in NAMES:
        return create_model(
            "NoExercise", __base__=Exercise, kind=(Annotated[str, AfterValidator(_unknown)], ...)
        )
    table: dict[str, Any] = {name: (kind_named(name).task, ...)}
    return create_model(f"{name.capitalize()}Exercise", __base__=Exercise, **table)


def _unknown(_: str) -> str:
    raise PydanticCustomError("unknown_name", "unknown name", {"allowed": NAMES})
