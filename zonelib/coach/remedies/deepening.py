"""Lay legs deeper or less deep, where the wall and the chase allow it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from zonelib.coach.remedies.chases import chase_limit
from zonelib.coach.remedies.edits import with_values
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.legs import Leg
from zonelib.rules.words import leg_words, mm
from zonelib.site.tolerance import above, below
from zonelib.site.wall import Wall

__all__ = ["deepen", "fit_depth", "shallower"]

ROUND = 1.0
"""How much deeper than its limit a leg is laid where only more than the limit will do [mm]."""


@dataclass(frozen=True)
class Bed:
    """A leg in its wall, and how deep it has to lie below each face not to concern it [mm]."""

    leg: Leg
    wall: Wall
    front: float
    rear: float

    @property
    def room(self) -> float:
        """What the wall leaves for both depths together [mm]."""
        return self.leg.front_depth + self.leg.rear_depth

    def chase(self, depth: float) -> float:
        """Return how deep the chase is for a depth below the front, plaster not counted [mm]."""
        cuts = ((depth, self.wall.front.finish), (self.room - depth, self.wall.rear.finish))
        near, finish = min(cuts)
        return near - finish + self.leg.thickness


def beds(task: Task) -> list[Bed]:
    """Return the finding's legs in their walls."""
    rules, numbers = task.pack.walls, task.numbers
    limit = rules.trigger_depth + (ROUND if rules.trigger_included else 0.0)
    framing = rules.policy == "edge-clearance-only"
    return [
        Bed(leg, wall, limit + framing * wall.front.finish, limit + framing * wall.rear.finish)
        for job in task.jobs for leg in job.legs if leg.number in numbers
        for wall in [job.surface.wall]
    ]  # fmt: skip


def deepen(task: Task) -> Iterator[Advice]:
    """Yield the legs laid so deep that they concern no face, or only one; none on a slant."""
    every = beds(task)
    if any(bed.leg.direction == "slanting" for bed in every):
        return
    if every:
        yield from _laid(task, "deepen", [_least(bed) for bed in every])
        yield from _laid(task, "deepen", [bed.front for bed in every])
        yield from _laid(task, "deepen", [bed.room - bed.rear for bed in every])
        yield from _no_deeper(task, every)


def _least(bed: Bed) -> float:
    """Return the depth below the front nearest to what it is, at which neither face is concerned [mm]."""
    if bed.front > bed.room - bed.rear:
        return bed.front
    return min(max(bed.front, bed.leg.front_depth), bed.room - bed.rear)


def _laid(task: Task, kind: str, depths: Sequence[float]) -> Iterator[Advice]:
    """Yield the legs at other depths below the front face."""
    pairs = list(zip(beds(task), depths, strict=True))
    if any(below(depth, 0.0) or above(depth, bed.room) for bed, depth in pairs):
        return
    front = task.route.depth_from == "front"
    stated = {bed.leg.number: round(depth if front else bed.room - depth, 3) for bed, depth in pairs}
    route = with_values(task.route, task.numbers, depth=stated)
    facts = {"depth": mm(max(stated.values())), "face": task.route.depth_from}
    words = say(
        kind, legs=leg_words(sorted(stated)), clear=_clear(pairs), limit=mm(pairs[0][0].front), **facts
    )
    yield Remedy(kind, words, _cost(task, pairs), task.with_route(route))


def _clear(pairs: Sequence[tuple[Bed, float]]) -> str:
    """Return the faces that no leg concerns, in words."""
    front = not any(below(depth, bed.front) for bed, depth in pairs)
    rear = not any(below(bed.room - depth, bed.rear) for bed, depth in pairs)
    return "both faces" if front and rear else f"the {'front' if front else 'rear'} face"


def _cost(task: Task, pairs: Sequence[tuple[Bed, float]]) -> str:
    """Return what a depth costs: a deeper groove in masonry, else nothing but care."""
    if not task.pack.builds[pairs[0][0].wall.build].chased:
        return say("depth-cost")
    old = max(max(bed.chase(bed.leg.front_depth), 0.0) for bed, _ in pairs)
    new = max(max(bed.chase(depth), 0.0) for bed, depth in pairs)
    name = "chase-deeper" if new > old else "chase-flatter"
    return say(name, old=mm(old), new=mm(new))


def _limit(task: Task, bed: Bed) -> float | None:
    return chase_limit(task, bed.wall, level=bed.leg.direction == "horizontal")


def _no_deeper(task: Task, every: Sequence[Bed]) -> Iterator[Impossible]:
    """Yield the reason: a chase that the leaf does not allow, or a wall too thin for both depths."""
    for bed in every:
        limit, chase = _limit(task, bed), bed.chase(bed.front)
        if limit is not None and above(chase, limit):
            yield Impossible("deepen", say("no-chase", depth=mm(bed.front), chase=mm(chase), limit=mm(limit)))
            return
    bed = min(every, key=lambda one: one.room - one.front - one.rear)
    if above(bed.front + bed.rear, bed.room):
        needed = bed.front + bed.rear + bed.leg.thickness
        words = say("too-thin", depth=mm(bed.front), needed=mm(needed), thickness=mm(bed.wall.thickness))
        yield Impossible("deepen", words)


def shallower(task: Task) -> Iterator[Advice]:
    """Yield the legs laid so that their chase is as deep as the leaf allows."""
    every = beds(task)
    depths = []
    for bed in every:
        limit, front = _limit(task, bed), bed.leg.front_depth <= bed.leg.rear_depth
        finish = bed.wall.front.finish if front else bed.wall.rear.finish
        depth = (limit or 0.0) + finish - bed.leg.thickness
        if below(depth, 0.0):
            yield Impossible(
                "shallower", say("no-flatter", thickness=mm(bed.leg.thickness), limit=mm(limit or 0.0))
            )
            return
        depths.append(depth if front else bed.room - depth)
    if every:
        yield from _laid(
            task, "shallower", [_rounded(bed, depth) for bed, depth in zip(every, depths, strict=True)]
        )
        yield from _laid(task, "shallower", depths)


def _rounded(bed: Bed, depth: float) -> float:
    """Return a depth to the whole mm on the side of the nearer face."""
    down = depth // ROUND * ROUND
    return (
        down if bed.leg.front_depth <= bed.leg.rear_depth else bed.room - (bed.room - depth) // ROUND * ROUND
    )


def fit_depth(task: Task) -> Iterator[Advice]:
    """Yield the legs laid within the wall: behind the finish, at the trigger depth, or at the very face."""
    every = beds(task)
    for depth in (0.0, task.pack.walls.trigger_depth):
        for behind in (True, False):
            yield from _laid(task, "fit-depth", [_within(bed, depth, behind=behind) for bed in every])
    for bed in every:
        if below(bed.room, 0.0):
            words = say("no-fit", thickness=mm(bed.leg.thickness), wall=mm(bed.wall.thickness))
            yield Impossible("fit-depth", words)
            return


def _within(bed: Bed, depth: float, *, behind: bool) -> float:
    """Return a depth below the front face: from the face it stands out of, behind its finish where told."""
    front = bed.leg.front_depth <= bed.leg.rear_depth
    finish = (bed.wall.front.finish if front else bed.wall.rear.finish) if behind else 0.0
    kept = min(max(depth, finish), max(bed.room, 0.0))
    return kept if front else bed.room - kept
