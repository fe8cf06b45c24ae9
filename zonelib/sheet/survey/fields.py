"""The fields of the form, and the range of each as the walls measured so far leave it."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from pydantic import BaseModel

from zonelib.sheet.survey.notes import Notes, Row
from zonelib.site.raw import number, size

__all__ = ["FormField", "allowed", "fields", "missing"]


class FormField(BaseModel):
    """One field: its key in a row of the notes, its words, and what may stand in it."""

    key: str
    words: str
    unit: str = "mm"
    needed: bool = False
    range: str

    @property
    def label(self) -> str:
        """What stands beside it, with the unit of a number."""
        return self.words if self.range in ("flag", "builds") else f"{self.words} [{self.unit}]"


@cache
def fields() -> dict[str, tuple[FormField, ...]]:
    """Return the fields of each group: ``room walls own openings accessories``."""
    text = resources.files("zonelib.sheet.survey").joinpath("form.toml").read_text(encoding="utf-8")
    return {
        group: tuple(FormField.model_validate(row) for row in rows)
        for group, rows in tomllib.loads(text).items()
    }


def missing(group: str, row: Row) -> tuple[FormField, ...]:
    """Return the fields of a row that are still to be measured."""
    return tuple(one for one in fields()[group] if one.needed and row.get(one.key) is None)


def allowed(field: FormField, row: Row, notes: Notes) -> str:
    """Return what may stand in a field, in words; "" where the field shows its choices itself."""
    if field.range in PLAIN:
        return PLAIN[field.range]
    length, height = _wall_of(row, notes)
    if field.range in FREE:
        along, other = FREE[field.range]
        return _reach(
            length if along else height, size(row.get(other)), centre=field.range in ("across", "up")
        )
    if field.range in ("wide", "tall"):
        whole, start = (length, "x") if field.range == "wide" else (height, "y")
        left = None if whole is None else whole - (number(row.get(start)) or 0.0)
        return PLAIN["size"] if left is None or left <= 0 else f"more than 0, at most {left:g}"
    return "" if field.range == "flag" or length is None else f"0 to {length:g}"


PLAIN = {
    "size": "more than 0",
    "length": "0 or more",
    "turn": "-180 to 180; 90 is a plain inner corner",
    "builds": "",
}

FREE = {"left": (True, "width"), "low": (False, "height"), "across": (True, "width"), "up": (False, "height")}
"""Places along a wall or up it, with the size that lies there."""


def _reach(whole: float | None, taken: float | None, *, centre: bool) -> str:
    if whole is None:
        return "0 or more"
    if centre:
        return f"{(taken or 0) / 2:g} to {whole - (taken or 0) / 2:g}"
    return f"0 to {whole - (taken or 0):g}"


def _wall_of(row: Row, notes: Notes) -> tuple[float | None, float | None]:
    """Return length and greatest height of the wall that a row is, or is on [mm]."""
    wall = row if "length" in row else _numbered(notes, row.get("wall"))
    heights = [size(wall.get(key)) for key in ("height_left", "height_right", "knee_y")]
    known = [one for one in heights if one is not None]
    return size(wall.get("length")), max(known) if known else size(notes.room.get("height"))


def _numbered(notes: Notes, wall: Any) -> Row:
    found = isinstance(wall, int) and 0 < wall <= len(notes.walls)
    return notes.walls[wall - 1] if found else {}
