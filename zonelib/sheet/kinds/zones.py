"""The ``zones`` kind on the pad: areas drawn on one face."""

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.draw import Scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.zones.answer import ZonesAnswer, drawn_area
from zonelib.exercise.kinds.zones.marking import strayed_parts
from zonelib.exercise.kinds.zones.measuring import compared
from zonelib.exercise.kinds.zones.picture import KEY
from zonelib.exercise.kinds.zones.task import ZonesTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, counted, pictured, wall_part

__all__ = ["PAD"]

DRAWN = {"drawn": KEY["drawn"]}


class _ZonesPad(PadKind):
    """Boxes and shapes; what is missed and what lies beyond is drawn under its number."""

    name = "zones"
    intro = "start-zones"

    def task(self, bundle: Bundle) -> Data:
        task = bundle.exercise.task_as(ZonesTask)
        pictures = pictured(bundle, {task.face: bundle.kind.blank(bundle)[0]})
        return {**wall_part(bundle.case.wall(task.wall)), **pictures}

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        if not isinstance(result.answer, ZonesAnswer):
            return []
        face, texts = bundle.exercise.task_as(ZonesTask).face, {one.n: one.text for one in result.messages}
        seen = compared(bundle, result.answer)
        found = [("missed", gap) for gap in seen.missed if not gap.is_empty]
        found += [("strayed", part) for part in strayed_parts(seen)]
        return [
            {"n": n, "face": face, "style": style, **_drawn(area), "text": texts[n]}
            for n, (style, area) in enumerate(found, start=1)
        ]

    def count(self, answer: Data) -> str:
        return counted(len(answer.get("areas", ())), "area")

    def still(self, bundle: Bundle, result: Result) -> Scene:
        blank: Scene = bundle.kind.blank(bundle)[0]
        if not isinstance(result.answer, ZonesAnswer) or bundle.kind.empty(result.answer):
            return blank
        drawn = Mark(css="drawn", shape=drawn_area(result.answer), alt="What you drew.")
        return overlaid(blank, [drawn], key=DRAWN)


def _drawn(area: BaseGeometry) -> Data:
    """Return an area's rings, and where in it its number stands [mm]."""
    inner = max(shapely.get_parts(area), key=lambda one: one.area).representative_point()
    return {"rings": list(_rings(area)), "at": [round(inner.x, 2), round(inner.y, 2)]}


def _rings(area: BaseGeometry) -> Iterator[list[list[float]]]:
    """Yield outlines and holes of an area."""
    for part in shapely.get_parts(area):
        if isinstance(part, shapely.Polygon):
            for ring in (part.exterior, *part.interiors):
                yield [[round(x, 2), round(y, 2)] for x, y in ring.coords[:-1]]


PAD = _ZonesPad()
