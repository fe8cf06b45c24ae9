"""The JSON Schema of exercise files, for an editor that checks as one types."""

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from zonelib.exercise.kinds import NAMES, exercise_model, kind_named

__all__ = ["exercise_schema"]

CASE = {"anyOf": [{"type": "string"}, {"type": "object"}], "title": "Case, or the path of a case file"}


def exercise_schema() -> dict[str, Any]:
    """Return the schema: one of the kinds, each with its task and the shape of its answers."""
    models: list[type[BaseModel]] = [exercise_model(name) for name in NAMES]
    models += [kind_named(name).answer for name in NAMES]
    refs, schema = models_json_schema([(model, "validation") for model in models], by_alias=True)
    for name, model, answer in zip(NAMES, models, models[len(NAMES) :], strict=False):
        keys = schema["$defs"][_named(refs, model)]["properties"]
        keys |= {"kind": {"const": name}, "model": refs[answer, "validation"], "case": CASE}
    schema["anyOf"] = [refs[model, "validation"] for model in models[: len(NAMES)]]
    return {"title": "Exercise", **schema}


def _named(refs: dict[Any, dict[str, Any]], model: type[BaseModel]) -> str:
    return str(refs[model, "validation"]["$ref"]).rpartition("/")[2]
