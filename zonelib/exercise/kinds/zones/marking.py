"""How drawn zones are marked."""

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Outcome, decide
from zonelib.exercise.fitting import unknown
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.zones.answer import ZonesAnswer
from zonelib.exercise.kinds.zones.areas import LEAST
from zonelib.exercise.kinds.zones.asked import asked_zones, other_strips
from zonelib.exercise.kinds.zones.criteria import ALL
from zonelib.exercise.kinds.zones.measuring import Compared, compared
from zonelib.exercise.kinds.zones.task import ZonesTask
from zonelib.exercise.model import Exercise
from zonelib.exercise.told import Message, percent
from zonelib.rules.pack import Pack
from zonelib.rules.words import listed, mm
from zonelib.site.faults import Fault
from zonelib.site.model import Case, Wall

__all__ = ["faults", "mark", "strayed_parts"]

FLOOR = 300.0
"""A drawn area that stays below this height is taken for a band along the floor [mm]."""

EDGE = 30.0
"""How far beside a strip something may be drawn and still be taken for it [mm]."""

SERVES = 0.1
"""Share of a piece that must lie in a strip for it to be taken for that strip."""

BESIDE = 200.0
"""Within this of an opening it is taken for a band round it [mm]."""


def mark(bundle: Bundle, answer: ZonesAnswer) -> Judged:
    """Compare what is drawn with the zones, then decide each criterion."""
    seen = compared(bundle, answer)
    criteria = decide(bundle.criteria, lambda rule: _outcome(seen, rule.check or ALL))
    wall = bundle.case.wall(bundle.exercise.task_as(ZonesTask).wall)
    return Judged(criteria, tuple(_messages(seen, wall, bundle.once(_strips))))


def _strips(bundle: Bundle) -> dict[str, BaseGeometry]:
    return other_strips(bundle.case, bundle.pack, bundle.exercise.task_as(ZonesTask))


def _outcome(seen: Compared, check: str) -> Outcome:
    form = None if check == ALL else check
    ours = [pair for pair in zip(seen.asked, seen.counted, strict=True) if form in (None, pair[0].form)]
    counted = listed([f"{one.name} ({percent(share)})" for one, share in ours])
    beyond = f" Beyond the zones, as much as {seen.beyond:.2g} zones is drawn." if seen.beyond else ""
    return seen.share(form), f"What counts: {counted}.{beyond}"


def _messages(seen: Compared, wall: Wall, strips: dict[str, BaseGeometry]) -> Iterator[Message]:
    n = 0
    for one, gap, share in zip(seen.asked, seen.missed, seen.found, strict=True):
        if not gap.is_empty:
            n += 1
            much = "is not drawn" if share <= 0 else f"is drawn by {percent(share)}"
            text = f"The zone {one.name} {much}. It lies {one.reason}. Expect a cable in all of it."
            yield Message(n, f"Missed: {one.name}", text)
    for part in strayed_parts(seen):
        n += 1
        why = _others(part, strips) or _common(part, seen, wall)
        yield Message(n, "Drawn beyond the zones", _beyond(part, why))


def strayed_parts(seen: Compared) -> list[BaseGeometry]:
    """Return each piece that is drawn beyond the zones, from left to right."""
    return sorted(shapely.get_parts(seen.strayed), key=lambda part: part.bounds)


def _beyond(part: BaseGeometry, why: str) -> str:
    left, low, right, high = (mm(value, places=0) for value in part.bounds)
    place = f"What is drawn within x {left} to {right} and {low} to {high} mm high lies in no zone."
    return f"{place}{why} By the rules no cable is laid here."


def _others(part: BaseGeometry, strips: dict[str, BaseGeometry]) -> str:
    """Return which accessories' strips were drawn that do not serve the cable asked about, or ""."""
    found = [source for source, area in strips.items() if area.intersection(part).area > SERVES * part.area]
    return f" {listed(found)} {_GIVES[len(found) > 1]} nothing to this cable." if found else ""


_GIVES = ("gives", "give")


def _common(part: BaseGeometry, seen: Compared, wall: Wall) -> str:
    """Return what is often believed of such a place, or ""."""
    for one in seen.asked:
        if one.run_on.area > LEAST and one.run_on.buffer(EDGE).covers(part):
            return f" The strip {one.name} ends at the opening."
    if part.bounds[3] <= FLOOR:
        return " There is no zone along the floor."
    for opening in wall.openings:
        if shapely.box(*opening.bounds).buffer(BESIDE, join_style="mitre").covers(part):
            return f" There is no zone round {opening.id}."
    return ""


def faults(exercise: Exercise, case: Case, pack: Pack) -> Iterator[Fault]:
    """Yield names that the case does not know, and forms of zone that the face does not have."""
    task, walls = exercise.task_as(ZonesTask), [wall.id for wall in case.walls]
    accessories = [one.id for wall in case.walls for one in wall.accessories]
    amiss = [
        *unknown("zones.wall", [task.wall], walls),
        *unknown("zones.joins", task.joins or (), accessories),
    ]
    if amiss:
        yield from amiss
        return
    forms = {one.form for one in asked_zones(case, pack, task)}
    if not forms:
        yield Fault(
            "zones", "a face that has no zone", "a face with a zone on it, so that there is one to draw"
        )
    for rule in exercise.criteria:
        if rule.check and rule.check != ALL and rule.check not in forms:
            allowed = ", ".join((ALL, *sorted(forms)))
            yield Fault(f"criteria.{rule.id}.check", f'"{rule.check}", of which this face has none', allowed)
