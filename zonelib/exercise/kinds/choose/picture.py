"""The drawings of a question: what it is about, and what of that was ticked."""

from collections.abc import Iterator

from shapely import Point

from zonelib.draw import Scene, room_scene, wall_scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import GIVEN, MARKED, as_given
from zonelib.exercise.kinds.choose.answer import ChooseAnswer
from zonelib.exercise.kinds.choose.marking import Ticked, ticked
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.exercise.marking import Result
from zonelib.rules.finding import Finding
from zonelib.site.model import Side

__all__ = ["blank", "scenes"]

CLUES = GIVEN - {"hidden", "routes", "points"}
"""What one who drills can see."""

ZONED = MARKED - {"findings", "legend"}

KEY = {"drawn": "ticked, and right", "missed": "ticked, and not right"}
RING = 45.0
"""About a fixing [mm]."""

Place = tuple[str, Side | None]
"""A wall and its face, or a room and no face."""


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return each wall or room that the question is about, before anything is said of it."""
    task = bundle.exercise.task_as(ChooseTask)
    show = CLUES if task.ask == "safe-fixings" else GIVEN
    return tuple(as_given(_scene(bundle, place, show, [])) for place in _places(bundle))


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the same with what was ticked; zones are shown where they decide."""
    if not isinstance(result.answer, ChooseAnswer):
        return ()
    seen = ticked(bundle, result.answer)
    match bundle.exercise.task_as(ChooseTask).ask:
        case "safe-fixings":
            return tuple(_fixings(bundle, seen))
        case "passing-routes":
            return tuple(_judged(bundle, {one.id for one in (*seen.hits, *seen.strays)}))
        case "clauses":
            return tuple(as_given(_scene(bundle, one, ZONED, [])) for one in _places(bundle))
        case _:
            return blank(bundle)


def _routes(bundle: Bundle) -> list[str] | None:
    """Return the routes to be drawn; None for all of the case."""
    task = bundle.exercise.task_as(ChooseTask)
    if task.of:
        return [task.of]
    if task.ask == "safe-fixings":
        return []
    return list(task.among) if task.ask == "passing-routes" and task.among else None


def _places(bundle: Bundle) -> list[Place]:
    """Return where there is something to show, each once."""
    case, task, routes = bundle.case, bundle.exercise.task_as(ChooseTask), _routes(bundle)
    front: Side = "front"
    if task.ask == "safe-fixings":
        places: list[Place] = [(one.wall, one.face) for one in case.fixings]
    elif task.ask == "own" and not case.routes:
        places = [(wall.id, front) for wall in case.walls[:1]]
    else:
        used = [one for one in case.routes if routes is None or one.id in routes]
        places = [(one.room, None) if one.room else (one.wall or "", front) for one in used]
    return list(dict.fromkeys(places))


def _scene(bundle: Bundle, place: Place, show: frozenset[str], findings: list[Finding]) -> Scene:
    (name, face), case, pack, routes = place, bundle.case, bundle.pack, _routes(bundle)
    if face is None:
        return room_scene(case, name, pack, findings=findings, routes=routes, show=show)
    return wall_scene(case, name, face, pack, findings=findings, routes=routes, show=show)


def _judged(bundle: Bundle, names: set[str]) -> Iterator[Scene]:
    """Yield the drawings with what was found of some routes; the others stay as given."""
    found = [one for one in bundle.verdict.findings if one.subject in names]
    for place in _places(bundle):
        yield as_given(_scene(bundle, place, MARKED, found), but=names)


def _fixings(bundle: Bundle, seen: Ticked) -> Iterator[Scene]:
    ticks = {one.id: css for css, group in (("drawn", seen.hits), ("missed", seen.strays)) for one in group}
    for (name, face), scene in bundle.once(_zoned):
        rings = [
            Mark(
                css=ticks[one.id],
                shape=Point(one.x, one.y).buffer(RING),
                alt=f"{one.id}: {KEY[ticks[one.id]]}.",
            )
            for one in bundle.case.fixings
            if one.id in ticks and (one.wall, one.face) == (name, face)
        ]
        yield overlaid(scene, rings, key=KEY)


def _zoned(bundle: Bundle) -> list[tuple[Place, Scene]]:
    show = MARKED - {"routes", "points"}
    return [(place, _scene(bundle, place, show, [])) for place in _places(bundle)]
