"""The ``route`` kind on the pad: a cable drawn on a wall."""

from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.draw.stretches import failures, line_of
from zonelib.draw.tracks import legs_on
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.rules.rulebook import Rulebook
from zonelib.sheet.kinds.base import Data, PadKind, counted, pictured, wall_part
from zonelib.sheet.kinds.incoming import answer_troubles
from zonelib.sheet.kinds.route_answer import answer_with, refuse_closed
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Side
from zonelib.site.ring import ring_of
from zonelib.site.row import row_of

__all__ = ["PAD", "blank_scene"]

PARTS = EVERY_PART - {"zones", "other-zones", "routes", "findings", "points", "safety", "legend", "notes"}
SHOWN = frozenset({"zones", "other-zones", "legend"})
DRAWN = EVERY_PART - {"zones", "other-zones", "findings", "safety", "legend"}
FACES: tuple[Side, Side] = ("front", "rear")


def blank_scene(bundle: Bundle, face: Side) -> Scene:
    """Return the picture to draw on; zones are in it only where the exercise shows them."""
    wall = bundle.exercise.task_as(RouteTask).wall
    if "zones" in bundle.exercise.show:
        return wall_scene(_to_be_cabled(bundle), wall, face, bundle.pack, show=PARTS | SHOWN)
    return wall_scene(bundle.case, wall, face, bundle.pack, routes=(), show=PARTS)


def _to_be_cabled(bundle: Bundle) -> Case:
    """Return the case with a cable that is not drawn: it tells which zones serve, and which do not."""
    any_way = RouteAnswer(points=((0, 0), (1, 0)))
    route = bundle.exercise.task_as(RouteTask).case_route(any_way)
    return case_from_data({**bundle.exercise.case, "routes": [route]}, bundle.pack.vocabulary)


class _RoutePad(PadKind):
    """Points of a cable; depth, covering and RCD where the exercise opens them."""

    name = "route"

    def task(self, bundle: Bundle) -> Data:
        route = bundle.exercise.task_as(RouteTask)
        offered = route.protections or tuple(bundle.pack.protections)
        return {
            **wall_part(bundle.case.wall(route.wall)),
            **pictured(bundle, {face: blank_scene(bundle, face) for face in FACES}),
            "open": ["points", *route.open],
            "start": list(route.start) if route.start else None,
            "given": {
                "depth": route.depth,
                "protection": route.protection,
                "rcd": route.rcd.model_dump() if route.rcd else None,
            },
            "protections": [{"id": name, "words": bundle.pack.protections[name].words} for name in offered],
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        if result.case is None or result.verdict is None:
            return []
        route = result.case.routes[0]
        wall = row_of(ring_of(result.case, route.room)) if route.room else result.case.wall(route.wall or "")
        legs = legs_on(route, wall, Rulebook(bundle.pack, result.case.readings))
        return [
            {
                "n": one.n,
                "face": one.finding.where.face or route.depth_from,
                "points": [list(point) for point in line_of(legs, one.ends).coords],
                "text": one.finding.text,
            }
            for one in failures(route, result.verdict.findings)
            if one.ends
        ]

    def count(self, answer: Data) -> str:
        return counted(len(answer.get("points", ())), "point")

    def still(self, bundle: Bundle, result: Result) -> Scene:
        wall = bundle.exercise.task_as(RouteTask).wall
        if result.case is None:
            return blank_scene(bundle, "front")
        show = DRAWN | {"zones", "legend"} if "zones" in bundle.exercise.show else DRAWN
        return wall_scene(result.case, wall, "front", bundle.pack, show=show)

    def troubles(self, value: object, task: Data) -> list[str]:
        return answer_troubles(value, {"none", *(one["id"] for one in task.get("protections", ()))})

    def held(self, bundle: Bundle, saved: Data) -> Data:
        known = {name: value for name, value in saved.items() if value is not None or name == "rcd"}
        return answer_with(bundle, {}, **known)

    def changed(self, bundle: Bundle, before: Data, parts: Data) -> Data:
        self.refuse_strange(parts)
        refuse_closed(bundle, **{name: value for name, value in parts.items() if name != "points"})
        return answer_with(bundle, before, **parts)


PAD = _RoutePad()
