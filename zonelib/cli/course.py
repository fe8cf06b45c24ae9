"""The course option that several commands share."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from zonelib.rules.course import Course

__all__ = ["course_lines", "course_option"]

course_option: Callable[[Any], Any] = click.option(
    "--course",
    "course_file",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Readings and sign-offs; by default the nearest course.toml, in the folder or above it.",
)


def course_lines(course: Course | None) -> list[str]:
    """Return which course file was read, as a reader is told of it."""
    return [f"Course: {course.path}."] if course else []
