"""What is asked: cables of the case to inspect, and what there is to choose from."""

from typing import Annotated, Any

from pydantic import Field

from zonelib.exercise.model import Exercise
from zonelib.site.fields import Id, Length, Number, Piece, Point
from zonelib.site.model import Rcd

__all__ = ["InspectTask", "Remedy", "Why", "walls_of"]

Words = Annotated[str, Field(min_length=1, max_length=300)]


class Remedy(Piece):
    """A change to one cable that is on offer; what it leaves out stays as it is.

    Whether it mends a stretch is not written here: the engine judges the changed cable.
    """

    id: Id
    words: Words
    route: Id
    points: tuple[Point, ...] | None = None
    depth: Number | tuple[Number, ...] | None = None
    protection: Id | tuple[Id, ...] | None = None
    rcd: Rcd | None = None

    def changed(self, route: dict[str, Any]) -> dict[str, Any]:
        """Return a cable's data with the change."""
        return {**route, **self.model_dump(mode="json", exclude={"id", "words", "route"}, exclude_none=True)}


class Why(Piece):
    """An answer to "why does it matter?", true of stretches that fail one rule."""

    id: Id
    words: Words
    rule: Id


class InspectTask(Piece):
    """An installation to inspect.

    Attributes
    ----------
    routes : tuple of str
        Cables to inspect; empty takes every one of the case.
    clauses : tuple of str
        Clauses to choose from, as the pack names them.
    also : dict of str to tuple of str
        By rule, clauses that are taken as well as the one the rule stands in.
    remedies, whys : tuple of Remedy, Why
        What else there is to choose from.
    slack : float
        How far an end of a marked stretch may be out [mm].
    """

    routes: tuple[Id, ...] = ()
    clauses: Annotated[tuple[Id, ...], Field(min_length=2)]
    also: dict[Id, tuple[Id, ...]] = Field(default_factory=dict)
    remedies: Annotated[tuple[Remedy, ...], Field(max_length=20)] = ()
    whys: Annotated[tuple[Why, ...], Field(max_length=20)] = ()
    slack: Length = 60.0


def walls_of(exercise: Exercise) -> set[str]:
    """Return the walls that the cables to inspect lie on, by name."""
    names = exercise.task_as(InspectTask).routes
    routes = exercise.case.get("routes", ())
    return {str(one.get("wall")) for one in routes if not names or one["id"] in names}
