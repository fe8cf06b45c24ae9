"""What is given of a cable, and which of it the trainee may set."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, Literal

from zonelib.exercise.fitting import unknown
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault
from zonelib.site.fields import Id, Number, Piece, Point, Size
from zonelib.site.model import Cable, Case, Rcd, Side

__all__ = ["CableTask", "cable_faults"]


class CableTask(Piece):
    """A cable of which some parts are given.

    Attributes
    ----------
    wall, room : str
        Where it runs: one of the two, the other is empty.
    joins : tuple of str
        The accessories it serves.
    supply, rcd, cable, depth, depth_from, protection, outer
        As of a route in a case file; what is open is where the trainee begins.
    open : tuple of str
        What the trainee may set.
    depths : tuple of float
        Least and greatest depth the trainee may choose [mm].
    protections : tuple of str
        Coverings on offer where ``protection`` is open; empty offers all of the pack.
    """

    id: Id = "A"
    wall: Id = ""
    room: Id = ""
    joins: tuple[Id, ...]
    supply: Literal["lv", "selv", "pelv"] = "lv"
    rcd: Rcd | None = None
    cable: Cable
    depth: Number
    depth_from: Side = "front"
    protection: Id = "none"
    outer: Size | None = None
    open: tuple[str, ...] = ()
    depths: tuple[Number, Number] = (0.0, 1000.0)
    protections: tuple[Id, ...] = ()

    def route_of(
        self, points: Sequence[Point], *, depth: Sequence[float] | None, protection: Sequence[str] | None,
        rcd: Rcd | None, via: Sequence[str] | None = None,
    ) -> dict[str, Any]:  # fmt: skip
        """Return the answered route as case data; what is not open stays as given."""
        legs = len(points) - 1
        given = self.model_dump(
            include={"id", "wall", "room", "joins", "supply", "cable", "depth_from", "outer"}
        )
        chosen = rcd if "rcd" in self.open else self.rcd
        set_here = {
            "points": [list(point) for point in points],
            "depth": self._per_leg("depth", depth, [self.depth] * legs),
            "protection": self._per_leg("protection", protection, [self.protection] * legs),
            "via": self._per_leg("via", via, ["wall"] * legs),
            "rcd": chosen.model_dump() if chosen else None,
        }
        return {key: value for key, value in {**given, **set_here}.items() if value not in (None, "")}

    def _per_leg(self, name: str, answered: Sequence[Any] | None, given: list[Any]) -> list[Any]:
        return list(answered) if name in self.open and answered is not None else given

    def offered(self, known: Iterable[str]) -> tuple[str, ...]:
        """Return the coverings on offer, of those a pack knows."""
        return self.protections or tuple(known)


def cable_faults(task: CableTask, path: str, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names in a task that the case or the pack does not know."""
    if bool(task.wall) == bool(task.room):
        found = "both wall and room" if task.wall else "neither wall nor room"
        yield Fault(path, found, "one of wall and room")
    rooms = [one.id for one in case.rooms]
    yield from unknown(f"{path}.wall", filter(None, [task.wall]), [wall.id for wall in case.walls])
    yield from unknown(f"{path}.room", filter(None, [task.room]), rooms)
    accessories = [one.id for wall in case.walls for one in wall.accessories]
    yield from unknown(f"{path}.joins", task.joins, accessories)
    yield from unknown(f"{path}.protection", [task.protection], pack.protections)
    yield from unknown(f"{path}.protections", task.protections, pack.protections)
