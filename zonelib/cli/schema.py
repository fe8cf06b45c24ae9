"""``zonelib schema``: the JSON Schema of a kind of file."""

import json

import click
from pydantic import BaseModel

from zonelib.exercise.schema import exercise_schema
from zonelib.rules.course import CourseFile
from zonelib.rules.pack import Pack
from zonelib.site.model import Case

__all__ = ["command"]

_MODELS: dict[str, type[BaseModel]] = {"case": Case, "pack": Pack, "course": CourseFile}
KINDS = (*_MODELS, "exercise")


@click.command("schema")
@click.argument("kind", type=click.Choice(KINDS))
def command(kind: str) -> None:
    """Print the JSON Schema of a kind of file, for an editor that checks as one types."""
    schema = exercise_schema() if kind == "exercise" else _MODELS[kind].model_json_schema(by_alias=True)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    click.echo(json.dumps(schema, indent=2))
