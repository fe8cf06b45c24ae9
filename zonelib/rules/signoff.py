"""A sign-off: who compared a pack with the book, in which edition, and when."""

from datetime import date, datetime
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field
from pydantic_core import PydanticCustomError

from zonelib.site.fields import Piece

__all__ = ["SignOff", "day_of"]

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
"""Python's own names of the months depend on the machine; a frozen exercise must not."""


def day_of(value: Any) -> date:
    """Return a day, given as TOML writes it or as text; anything else is refused, a time of day too."""
    try:
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        return date.fromisoformat(value)
    except (TypeError, ValueError) as error:
        raise PydanticCustomError("not_a_day", "a day, such as 2026-09-14") from error


def _name(value: str) -> str:
    if value.strip() != value or not value.isprintable():
        raise PydanticCustomError("not_a_name", "a role or a name, in one line")
    return value


class SignOff(Piece):
    """Who checked which edition of a pack against the book, and when; `by` is a role or a name."""

    edition: Annotated[str, Field(min_length=1, max_length=400)]
    by: Annotated[str, Field(min_length=1, max_length=80), AfterValidator(_name)]
    on: Annotated[date, BeforeValidator(day_of)]

    @property
    def words(self) -> str:
        """What stands after the edition wherever that is shown."""
        day = f"{self.on.day} {MONTHS[self.on.month - 1]} {self.on.year}"
        return f"checked against the book by {self.by} on {day}"
