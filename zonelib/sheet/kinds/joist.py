"""The ``joist`` kind on the pad: holes and notches cut in a joist."""

from zonelib.draw import Scene
from zonelib.draw.joist import joist_scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.joist.answer import JoistAnswer
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, counted, pictured
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["PAD"]

Spot = tuple[float, float]


class _JoistPad(PadKind):
    """Holes A1, A2, … and notches B1, B2, …, with their sizes and coverings."""

    name = "joist"
    intro = "start-joist"

    def task(self, bundle: Bundle) -> Data:
        task, joist = bundle.exercise.task_as(JoistTask), _joist(bundle, bundle.case)
        top = [[0, joist.depth], [joist.span, joist.depth]]
        words = bundle.pack.protections
        return {
            "wall": {"id": joist.id, "length": joist.span, "top": top, "thickness": joist.width},
            **pictured(bundle, {"front": bundle.kind.blank(bundle)[0]}),
            "there": [{"id": name, "x": x} for name, (x, _) in _spots(joist).items()],
            "asked": {"holes": len(task.holes), "notches": len(task.notches)},
            "protections": [{"id": name, "words": words[name].words} for name in task.protections],
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        if result.case is None or result.verdict is None:
            return []
        spots = _spots(_joist(bundle, result.case))
        failed = enumerate(result.verdict.failures, start=1)
        return [
            {"n": n, "face": "front", **_place(spots, one.subject, one.where.other), "text": one.text}
            for n, one in failed
            if one.subject in spots
        ]

    def count(self, answer: Data) -> str:
        return counted(len(answer.get("holes", ())) + len(answer.get("notches", ())), "cut")

    def still(self, bundle: Bundle, result: Result) -> Scene:
        if result.case is None or not isinstance(result.answer, JoistAnswer):
            blank: Scene = bundle.kind.blank(bundle)[0]
            return blank
        return joist_scene(_joist(bundle, result.case), bundle.pack)


def _joist(bundle: Bundle, case: Case) -> Joist:
    name = bundle.exercise.task_as(JoistTask).joist
    return next(one for one in case.joists if one.id == name)


def _spots(joist: Joist) -> dict[str, Spot]:
    """Return where each cut is: a hole's middle, a notch's middle at its edge [mm]."""
    holes = {one.id: (one.x, one.y) for one in joist.holes}
    edge = {"top": joist.depth, "bottom": 0.0}
    return holes | {one.id: (one.x, edge[one.edge]) for one in joist.notches}


def _place(spots: dict[str, Spot], subject: str, other: str | None) -> Data:
    """Return the place of a cut, or the line between two that are too near each other."""
    if other in spots and spots[subject] != spots[other]:
        return {"points": [list(spots[subject]), list(spots[other])]}
    return {"at": list(spots[subject])}


PAD = _JoistPad()
