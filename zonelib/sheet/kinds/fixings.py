"""The ``fixings`` kind on the pad: things hung on one face."""

import shapely

from zonelib.draw import Scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer
from zonelib.exercise.kinds.fixings.picture import KEY
from zonelib.exercise.kinds.fixings.task import FixingsTask, Item
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, counted, pictured, wall_part
from zonelib.site.fields import Point

__all__ = ["PAD"]


class _FixingsPad(PadKind):
    """Rigid things, each with its screws; what is out of sight is not sent."""

    name = "fixings"
    intro = "start-fixings"

    def task(self, bundle: Bundle) -> Data:
        task = bundle.exercise.task_as(FixingsTask)
        return {
            **wall_part(bundle.case.wall(task.wall), hidden=False),
            **pictured(bundle, {task.face: bundle.kind.blank(bundle)[0]}),
            "items": [one.model_dump(mode="json") for one in task.items],
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        if result.case is None or result.verdict is None:
            return []
        face = bundle.exercise.task_as(FixingsTask).face
        places = {one.id: [one.x, one.y] for one in result.case.fixings}
        return [
            {"n": n, "face": face, "at": places[one.subject], "text": one.text}
            for n, one in enumerate(result.verdict.failures, start=1)
        ]

    def count(self, answer: Data) -> str:
        return counted(len(answer.get("places", ())), "thing")

    def still(self, bundle: Bundle, result: Result) -> Scene:
        blank: Scene = bundle.kind.blank(bundle)[0]
        if not isinstance(result.answer, FixingsAnswer) or not result.answer.places:
            return blank
        task, places = bundle.exercise.task_as(FixingsTask), result.answer.places
        hung = [_hung(item, places[item.id]) for item in task.items if item.id in places]
        return overlaid(blank, hung, key=KEY)


def _hung(item: Item, place: Point) -> Mark:
    x, y = place
    words = f"{item.id} {item.words}"
    shape = shapely.box(x, y, x + item.width, y + item.height)
    return Mark(css="item", shape=shape, alt=f"{words}, lower left corner at {x:g}, {y:g}.", label=words)


PAD = _FixingsPad()
