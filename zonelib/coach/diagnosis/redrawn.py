"""Changes that a misconception makes to walls as they are made: of a room's walls a file says too little."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from zonelib.exercise.bundle import Bundle
from zonelib.site.model import Case, Face, Wall
from zonelib.site.room import RoomWall

__all__ = ["REDRAWN", "Redrawn"]


@dataclass(frozen=True)
class Redrawn(Bundle):
    """An exercise whose walls somebody sees otherwise than the file makes them.

    Attributes
    ----------
    by : tuple of str
        Names of the changes, from `REDRAWN`.
    """

    by: tuple[str, ...] = ()

    def case_with(self, **parts: Any) -> Case:
        """Return the case as it is seen, with parts of an answer in it."""
        case = super().case_with(**parts)
        for name in self.by:
            case = case.model_copy(update={"walls": tuple(map(REDRAWN[name], case.walls))})
        return case


def _ceiling_light(wall: Wall) -> Wall:
    """Take the middle of a wall, below the light of the ceiling, for a band as at a corner."""
    middle = [wall.length / 2]
    rear = _lit_behind(wall) if isinstance(wall, RoomWall) else middle
    return wall.model_copy(update={"front": _with(wall.front, middle), "rear": _with(wall.rear, rear)})


def _lit_behind(wall: RoomWall) -> list[float]:
    """Return where the lights of the rooms behind a wall stand on its rear [mm]."""
    places = (other.at - other.wall.length / 2 for other in wall.behind)
    return [x for x in places if 0.0 <= x <= wall.length]


def _with(face: Face, corners: Iterable[float]) -> Face:
    return face.model_copy(update={"internal_corners": tuple(sorted({*face.internal_corners, *corners}))})


REDRAWN: dict[str, Callable[[Wall], Wall]] = {"ceiling_light": _ceiling_light}
"""By name, a wall as somebody sees it."""
