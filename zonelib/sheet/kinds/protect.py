"""The ``protect`` kind on the pad: a given cable, with depth, covering and RCD to choose."""

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.protect.task import ProtectTask
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
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say

__all__ = ["PAD"]

RCD = {"at": "origin", "delayed": False}


class _ProtectPad(PadKind):
    """Choices for each leg and for the circuit; the points are the exercise's."""

    name = "protect"
    intro = "start-protect"

    def task(self, bundle: Bundle) -> Data:
        task = bundle.exercise.task_as(ProtectTask)
        wall = drawn_on(bundle, task)
        scenes: dict[str, Scene] = {
            face: cable_scene(bundle, task, bundle.case, face=face, show=PARTS, bare=True)
            for face in (FACES[:1] if task.room else FACES)
        }
        return {
            **wall_or_row(wall),
            **pictured(bundle, scenes),
            "open": list(task.open),
            "given": {
                "points": [list(point) for point in task.points],
                "depth": task.depth,
                "protection": task.protection,
                "rcd": task.rcd.model_dump() if task.rcd else None,
            },
            "depths": [task.depths[0], min(task.depths[1], wall.thickness)],
            "protections": coverings(bundle, task.offered(bundle.pack.protections)),
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        return failing(bundle, result, drawn_on(bundle, bundle.exercise.task_as(ProtectTask)))

    def count(self, answer: Data) -> str:
        return f"{counted(len(answer.get('depth') or ()), 'leg')}, {'an' if answer.get('rcd') else 'no'} RCD"

    def still(self, bundle: Bundle, result: Result) -> Scene:
        task = bundle.exercise.task_as(ProtectTask)
        case = result.case or bundle.case_with(routes=[task.case_route()])
        return cable_scene(bundle, task, case, face="front", show=DRAWN)

    def troubles(self, value: object, task: Data) -> list[str]:
        """Hold a value to one depth and one covering for each leg that is given."""
        if not isinstance(value, dict) or "points" in value:
            return super().troubles(value, task) or ["an answer here has no points: they are given"]
        points = task.get("given", {}).get("points", [])
        known = {"none", *(one["id"] for one in task.get("protections", ()))}
        return answer_troubles({**value, "points": points}, known)

    def held(self, bundle: Bundle, saved: Data) -> Data:
        task = bundle.exercise.task_as(ProtectTask)
        legs = len(task.points) - 1
        return {
            "depth": saved.get("depth") or [task.depth] * legs,
            "protection": saved.get("protection") or [task.protection] * legs,
            "rcd": saved.get("rcd"),
        }

    def changed(self, bundle: Bundle, before: Data, parts: Data) -> Data:
        self.refuse_strange(parts)
        task = bundle.exercise.task_as(ProtectTask)
        if closed := [part for part in parts if part not in task.open]:
            raise SheetTrouble(say("closed", part=", ".join(closed), open=", ".join(task.open)))
        rcd = parts.get("rcd")
        whole = {"rcd": {**RCD, **rcd}} if isinstance(rcd, dict) else {}
        return self.held(bundle, {**before, **parts, **whole})


PAD = _ProtectPad()
