"""The drawings of a cable: where it is to run, how it is given, and how it was marked."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from zonelib.draw import EVERY_PART, Scene, room_scene, wall_scene
from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.marking import Result
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.site.model import Case, Side

__all__ = ["GIVEN", "as_asked", "as_given", "as_marked"]

MARKED = EVERY_PART - {"safety"}
"""The safety words stand in the page's own text."""

GIVEN = MARKED - {"zones", "other-zones", "findings", "legend"}
"""What shows a cable before anything is said of it."""

UNSAID = MARKED - {"findings", "legend"}

JUDGED = ("cable", "cable-deep")

MOST = 60
"""Failures that a picture can number: more of them hide what they tell, and take minutes to place."""


def as_asked(case: Case, task: CableTask, pack: Pack, *, show: Collection[str]) -> Scene:
    """Return the wall or room of a task."""
    return _scene(case, task, pack, show=show)


def as_given(scene: Scene, *, but: Collection[str] = ()) -> Scene:
    """Return a drawing with cables in ink, not in the colour of what meets the rules, `but` for some."""
    shapes = (
        replace(one, css="item") if one.css in JUDGED and one.name not in but else one for one in scene.shapes
    )
    return replace(scene, shapes=tuple(shapes))


def as_marked(result: Result, task: CableTask, pack: Pack) -> tuple[Scene, ...]:
    """Return a room, or a wall's front, and its rear where something fails there."""
    if result.case is None or result.verdict is None:
        return ()
    behind = task.wall and any(one.where.face == "rear" for one in result.verdict.failures)
    faces: tuple[Side, ...] = ("front", "rear") if behind else ("front",)
    found, failed = result.verdict.findings, result.verdict.failures
    if len(failed) > MOST:
        return tuple(as_given(_scene(result.case, task, pack, face=one, show=UNSAID)) for one in faces)
    return tuple(_scene(result.case, task, pack, face=face, findings=found, show=MARKED) for face in faces)


def _scene(
    case: Case, task: CableTask, pack: Pack, *, face: Side = "front", findings: Sequence[Finding] = (),
    show: Collection[str],
) -> Scene:  # fmt: skip
    if task.room:
        return room_scene(case, task.room, pack, findings=findings, show=show)
    return wall_scene(case, task.wall, face, pack, findings=findings, show=show)
