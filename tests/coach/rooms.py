"""An exercise with rooms for tests: one drop to a socket, and what may be changed of its table."""

from typing import Any

from tests.exercise.answers import exercise
from zonelib.coach.variants.vary import Family, family_of
from zonelib.exercise import Exercise
from zonelib.exercise.model import Variants

Data = dict[str, Any]

START: Data = {"from": 300, "to": 900, "step": 10, "sets": ["start.x"]}
SOCKET: Data = {"from": 1050, "to": 1650, "step": 10, "sets": ["S1.x"]}
SAID = "{start.x} mm from the left"


def varied(name: str = "bedroom-drop", **table: Any) -> Exercise:
    """Return an exercise of the bank with another table ``[variants]``."""
    stated = {"draw": {"start": START}, "words": [SAID], **table}
    return exercise(name).model_copy(update={"variants": Variants.model_validate(stated)})


def family(name: str = "bedroom-drop", **table: Any) -> Family:
    return family_of(varied(name, **table))
