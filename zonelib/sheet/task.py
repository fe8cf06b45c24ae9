"""What the pad is given: an exercise as a picture to draw on, and what may be set."""

from typing import Any

from zonelib.draw import EVERY_PART, Scene, svg, wall_scene
from zonelib.draw.stretches import failures, line_of
from zonelib.draw.tracks import legs_on
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import headline
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Side, Wall
from zonelib.site.ring import ring_of
from zonelib.site.row import row_of

__all__ = ["blank_scene", "pad_result", "pad_task"]

PARTS = EVERY_PART - {"zones", "other-zones", "routes", "findings", "points", "safety", "legend", "notes"}
SHOWN = frozenset({"zones", "other-zones", "legend"})
SNAP = 5
FACES: tuple[Side, Side] = ("front", "rear")


def blank_scene(bundle: Bundle, face: Side) -> Scene:
    """Return the picture to draw on; zones are in it only where the exercise shows them."""
    wall = bundle.exercise.task_as(RouteTask).wall
    if "zones" in bundle.exercise.show:
        return wall_scene(_to_be_cabled(bundle), wall, face, bundle.pack, show=PARTS | SHOWN)
    return wall_scene(_case(bundle), wall, face, bundle.pack, routes=(), show=PARTS)


def _to_be_cabled(bundle: Bundle) -> Case:
    """Return the case with a cable that is not drawn: it tells which zones serve, and which do not."""
    any_way = RouteAnswer(points=((0, 0), (1, 0)))
    route = bundle.exercise.task_as(RouteTask).case_route(any_way)
    return case_from_data({**bundle.exercise.case, "routes": [route]}, bundle.pack.vocabulary)


def pad_task(bundle: Bundle) -> dict[str, Any]:
    """Return the exercise as the pad's task."""
    exercise, route = bundle.exercise, bundle.exercise.task_as(RouteTask)
    scenes = {face: blank_scene(bundle, face) for face in FACES}
    offered = route.protections or tuple(bundle.pack.protections)
    return {
        "kind": exercise.kind,
        "exercise": exercise.id,
        "title": exercise.title,
        **_wall(_case(bundle).wall(route.wall)),
        "pictures": {face: svg(scene, name=f"pad-{exercise.id}-{face}") for face, scene in scenes.items()},
        "alt": {face: scene.description for face, scene in scenes.items()},
        "open": ["points", *route.open],
        "start": list(route.start) if route.start else None,
        "given": {
            "depth": route.depth,
            "protection": route.protection,
            "rcd": route.rcd.model_dump() if route.rcd else None,
        },
        "protections": [{"id": name, "words": bundle.pack.protections[name].words} for name in offered],
        "snap": SNAP,
    }


def _case(bundle: Bundle) -> Case:
    return case_from_data(bundle.exercise.case, bundle.pack.vocabulary)


def _wall(wall: Wall) -> dict[str, Any]:
    keys = ("id", "kind", "face", "x", "y", "width", "height")
    top = [list(point) for point in wall.profile]
    return {
        "wall": {"id": wall.id, "length": wall.length, "top": top, "thickness": wall.thickness},
        "accessories": [one.model_dump(include=set(keys)) for one in wall.accessories],
        "openings": [one.model_dump() for one in wall.openings],
    }


def pad_result(result: Result, pack: Pack) -> dict[str, Any] | None:
    """Return what a check found as the pad shows it: failing stretches under their numbers."""
    if result.case is None or result.verdict is None:
        return None
    route = result.case.routes[0]
    wall = row_of(ring_of(result.case, route.room)) if route.room else result.case.wall(route.wall or "")
    legs = legs_on(route, wall, Rulebook(pack, result.case.readings))
    stretches = [
        {
            "n": one.n,
            "face": one.finding.where.face or route.depth_from,
            "points": [list(point) for point in line_of(legs, one.ends).coords],
            "text": one.finding.text,
        }
        for one in failures(route, result.verdict.findings)
        if one.ends
    ]
    return {"stretches": stretches, "passed": result.score == result.points, "summary": headline(result)}
