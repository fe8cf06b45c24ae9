"""One picture of a case: a face of a wall, a cut through it, a room unfolded, or a joist."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from typing import cast

from zonelib.draw import EVERY_PART, Scene, room_scene, wall_scene
from zonelib.draw.joist import joist_scene
from zonelib.draw.section import section_scene
from zonelib.rules.engine import Verdict
from zonelib.rules.pack import Pack
from zonelib.sheet.trouble import SheetTrouble
from zonelib.site.model import Case, Side

__all__ = ["View", "scene_of", "shown_case"]

MARKED = EVERY_PART - {"safety"}
"""The safety words stand once in a lesson, in their own box."""

PLAIN = MARKED - {"zones", "other-zones", "findings", "legend", "notes"}
"""A wall as anyone sees it, and cables on it, nothing judged."""

VIEWS = ("front", "rear", "section", "room", "joist")


@dataclass(frozen=True)
class View:
    """Which picture of a case is wanted.

    Attributes
    ----------
    kind : str
        One of `VIEWS`.
    wall : str
        Id of the wall, or "" for that of the first cable, else the first.
    routes : collection of str
        Ids of the cables to show.
    zones : bool
        Whether zones are drawn.
    hidden : bool
        Whether what cannot be seen from this face is drawn.
    """

    kind: str = "front"
    wall: str = ""
    routes: Collection[str] = ()
    zones: bool = True
    hidden: bool = True

    def __post_init__(self) -> None:
        if self.kind not in VIEWS:
            raise SheetTrouble(f"There is no view {self.kind}. There are: {', '.join(VIEWS)}.")


def shown_case(case: Case, view: View) -> Case:
    """Return the case with only the cables that are shown, so that only they are judged."""
    routes = tuple(route for route in case.routes if route.id in view.routes)
    return case.model_copy(update={"routes": routes})


def scene_of(case: Case, pack: Pack, view: View, *, verdict: Verdict | None = None) -> Scene:
    """Return the drawing of a view; failing stretches are numbered where a verdict is given."""
    found = verdict.findings if verdict else ()
    parts = MARKED if view.zones else PLAIN
    parts = parts if view.hidden else parts - {"hidden"}
    if view.kind == "joist":
        return joist_scene(case.joists[0], pack, numbers=_numbers(verdict), limits=view.zones)
    if view.kind == "room":
        room = view.wall or case.rooms[0].id
        return room_scene(case, room, pack, findings=found, routes=view.routes, show=parts)
    wall = view.wall or _first_wall(case)
    if view.kind == "section":
        return section_scene(case, wall, pack, findings=found)
    face = cast("Side", view.kind)
    return wall_scene(case, wall, face, pack, findings=found, routes=view.routes, show=parts)


def _first_wall(case: Case) -> str:
    named = [route.wall for route in case.routes if route.wall]
    return named[0] if named else case.walls[0].id


def _numbers(verdict: Verdict | None) -> dict[str, list[int]]:
    """Return the numbers of the failed findings by what they tell of."""
    found: dict[str, list[int]] = defaultdict(list)
    for n, finding in enumerate(verdict.failures if verdict else (), 1):
        found[finding.subject].append(n)
    return found
