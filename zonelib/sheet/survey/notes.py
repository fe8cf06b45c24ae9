"""What was measured, as it was typed: a number, a text that is none, or nothing yet."""

import math
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

__all__ = ["Notes", "Row", "as_typed", "next_id"]

Row = dict[str, Any]

NAME = r"^[a-zA-Z0-9_\-]{1,40}$"
"""Names a room, its files and its exercises."""

PREFIXES = {"door": "D", "window": "N", "hatch": "H", "switch": "SW", "thermostat": "TH"}
"""What the names of things begin with, where it is not the first letters of the kind."""


def _placed(rows: list[Row]) -> list[Row]:
    """Accept things that say what they are, and on which wall: a file may hold anything."""
    for row in rows:
        named = [type(row.get(key)) for key in ("id", "kind", "wall")]
        if named != [str, str, int]:
            raise ValueError("a thing without id, kind or wall")
    return rows


Things = Annotated[list[Row], Field(max_length=500), AfterValidator(_placed)]


class Notes(BaseModel):
    """The measurements of one room.

    Attributes
    ----------
    name, pack : str
        Of the room and its files, and of the country's rules.
    room : dict
        What all walls share.
    walls, openings, accessories : list of dict
        In the order they were measured; each thing says on which wall it is.
    spread : bool
        Whether a gap in the plan is spread over the walls.
    drill : object
        Diameter of the drill [mm].
    step : int
        Which step of the form was open.
    """

    model_config = ConfigDict(extra="forbid", validate_assignment=True)

    schema_version: Literal[1] = Field(1, alias="schema")
    name: Annotated[str, Field(pattern=NAME)]
    pack: str = "uk"
    room: Row = Field(default_factory=dict)
    walls: Annotated[list[Row], Field(max_length=200)] = Field(default_factory=list)
    openings: Things = Field(default_factory=list)
    accessories: Things = Field(default_factory=list)
    spread: bool = False
    drill: Any = 6
    step: Annotated[int, Field(ge=0, le=20)] = 0

    def rows(self, group: str) -> list[Row]:
        """Return the rows of a group: the room itself is a group of one."""
        rows: list[Row] = [self.room] if group == "room" else getattr(self, group)
        return rows

    def without(self, group: str, at: int) -> None:
        """Take a row out; with a wall goes what is on it, and the walls after it move up."""
        del self.rows(group)[at]
        if group == "walls":
            for things in (self.openings, self.accessories):
                things[:] = [one for one in things if one.get("wall") != at + 1]
                for one in things:
                    one["wall"] -= one["wall"] > at + 1


def as_typed(text: object) -> Any:
    """Return a number where the text is one, None where it is blank; else the text, to be refused."""
    if not isinstance(text, str):
        return text
    words = text.strip()
    if not words:
        return None
    try:
        value = int(words) if words.lstrip("+-").isdecimal() else float(words)
    except ValueError:
        return words
    return value if math.isfinite(value) else words  # JSON has no other number


def next_id(kind: str, taken: list[Row]) -> str:
    """Return a name for a new thing, such as S2."""
    head = PREFIXES.get(kind) or "".join(part[0] for part in kind.split("-")).upper()
    names, number = {one.get("id") for one in taken}, 1
    while f"{head}{number}" in names:
        number += 1
    return f"{head}{number}"
