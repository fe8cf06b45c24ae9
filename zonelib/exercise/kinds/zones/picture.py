"""The drawings of zones: the face to draw on, and the face with zones and what was drawn."""

from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.zones.answer import ZonesAnswer
from zonelib.exercise.kinds.zones.asked import Asked
from zonelib.exercise.kinds.zones.marking import strayed_parts
from zonelib.exercise.kinds.zones.measuring import Compared, compared
from zonelib.exercise.kinds.zones.task import ZonesTask
from zonelib.exercise.marking import Result

__all__ = ["blank", "scenes"]

PARTS = EVERY_PART - {"safety", "routes", "other-zones"}
BLANK = PARTS - {"zones"}

KEY = {
    "zone": "zone: a cable is expected here",
    "drawn": "what you drew",
    "missed": "zone that is not drawn, or not all of it",
    "strayed": "drawn where no zone lies",
}


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return the face as the question shows it."""
    task = bundle.exercise.task_as(ZonesTask)
    return (wall_scene(bundle.case, task.wall, task.face, bundle.pack, routes=(), show=BLANK),)


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the face with its zones, what was drawn, and what is to change under its number."""
    if not isinstance(result.answer, ZonesAnswer):
        return ()
    seen = compared(bundle, result.answer)
    return (overlaid(bundle.once(blank)[0], _marks(seen), key=KEY),)


def _marks(seen: Compared) -> list[Mark]:
    marks = [
        Mark(css="zone", shape=one.area, alt=f"Zone {one.name}: {one.reason}.", label=_short(one))
        for one in seen.asked
    ]
    marks.append(Mark(css="drawn", shape=seen.drawn, alt="What you drew."))
    gaps = [(one.name, gap) for one, gap in zip(seen.asked, seen.missed, strict=True) if not gap.is_empty]
    for n, (name, gap) in enumerate(gaps, start=1):
        marks.append(Mark(css="missed", shape=gap, alt=f"Number {n}: {name}, not drawn.", n=n))
    for n, part in enumerate(strayed_parts(seen), start=len(gaps) + 1):
        marks.append(Mark(css="strayed", shape=part, alt=f"Number {n}: drawn where no zone lies.", n=n))
    return marks


def _short(one: Asked) -> str:
    return one.form if one.form in ("corner", "beside") else one.name
