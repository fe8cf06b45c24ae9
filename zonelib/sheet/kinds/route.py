"""The ``route`` kind on the pad: a cable drawn on a wall, or round a room whose walls lie in a row."""

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.picture import to_be_cabled
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, counted, pictured
from zonelib.sheet.kinds.cable import (
    DRAWN,
    FACES,
    PARTS,
    cable_scene,
    coverings,
    drawn_on,
    failing,
    wall_or_row,
)
from zonelib.sheet.kinds.incoming import answer_troubles
from zonelib.sheet.kinds.route_answer import answer_with, refuse_closed
from zonelib.site.model import Side

__all__ = ["PAD", "blank_scene"]

SHOWN = frozenset({"zones", "other-zones", "legend"})


def blank_scene(bundle: Bundle, face: Side) -> Scene:
    """Return the picture to draw on; zones are in it only where the exercise shows them."""
    task = bundle.exercise.task_as(RouteTask)
    if "zones" in bundle.exercise.show:
        return cable_scene(bundle, task, to_be_cabled(bundle), face=face, show=PARTS | SHOWN)
    return cable_scene(bundle, task, bundle.case, face=face, show=PARTS, bare=True)


class _RoutePad(PadKind):
    """Points of a cable; depth, covering and RCD where the exercise opens them."""

    name = "route"

    def task(self, bundle: Bundle) -> Data:
        route = bundle.exercise.task_as(RouteTask)
        faces = FACES[:1] if route.room else FACES
        return {
            **wall_or_row(drawn_on(bundle, route)),
            **pictured(bundle, {face: blank_scene(bundle, face) for face in faces}),
            "open": ["points", *route.open],
            "start": list(route.start) if route.start else None,
            "given": {
                "depth": route.depth,
                "protection": route.protection,
                "rcd": route.rcd.model_dump() if route.rcd else None,
            },
            "protections": coverings(bundle, route.offered(bundle.pack.protections)),
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        return failing(bundle, result, drawn_on(bundle, bundle.exercise.task_as(RouteTask)))

    def count(self, answer: Data) -> str:
        return counted(len(answer.get("points", ())), "point")

    def still(self, bundle: Bundle, result: Result) -> Scene:
        if result.case is None:
            return blank_scene(bundle, "front")
        show = DRAWN | {"zones", "legend"} if "zones" in bundle.exercise.show else DRAWN
        task = bundle.exercise.task_as(RouteTask)
        return cable_scene(bundle, task, result.case, face="front", show=show)

    def troubles(self, value: object, task: Data) -> list[str]:
        known = {"none", *(one["id"] for one in task.get("protections", ()))}
        return answer_troubles(value, known, via="via" in task.get("open", ()))

    def held(self, bundle: Bundle, saved: Data) -> Data:
        known = {name: value for name, value in saved.items() if value is not None or name == "rcd"}
        return answer_with(bundle, {}, **known)

    def changed(self, bundle: Bundle, before: Data, parts: Data) -> Data:
        self.refuse_strange(parts)
        refuse_closed(bundle, **{name: value for name, value in parts.items() if name != "points"})
        return answer_with(bundle, before, **parts)


PAD = _RoutePad()
