"""Put legs into a covering that counts."""

from collections.abc import Iterator

from zonelib.coach.remedies.chases import deepest_bed
from zonelib.coach.remedies.edits import straight, with_values
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import covering_words, put_words, say
from zonelib.coach.remedies.task import Task
from zonelib.rules.legs import leg_lengths
from zonelib.rules.words import leg_words, mm

__all__ = ["choose_covering", "counting", "flat_covering"]


def counting(task: Task) -> list[str]:
    """Return the coverings that count, in the order a tradesman thinks of them."""
    names = [name for name, one in task.pack.protections.items() if one.counts]
    if task.existing:
        names = [name for name in names if covering_words(name)["over_a_cable"]]
    return sorted(names, key=lambda name: int(covering_words(name)["order"]))


def choose_covering(task: Task) -> Iterator[Advice]:
    """Yield the failing legs in each covering that counts; on a slant only where the run exists."""
    points = task.route.points
    slanting = [n for n in task.numbers if not straight(points[n - 1], points[n])]
    if slanting and not task.existing:
        yield Impossible("choose-covering", say("no-slant", legs=leg_words(slanting)))
        return
    for name in counting(task):
        route = with_values(task.route, task.numbers, protection=name)
        covering = task.pack.protections[name].words
        words = say("choose-covering", legs=leg_words(task.numbers), covering=covering, **put_words(name))
        yield Remedy("choose-covering", words, _cost(task, name), task.with_route(route))


def flat_covering(task: Task) -> Iterator[Advice]:
    """Yield the failing legs in each covering that counts, no deeper than its chase may be."""
    points = task.route.points
    if not all(straight(points[n - 1], points[n]) for n in task.numbers):
        return
    for name in counting(task):
        depths = {}
        for number in task.numbers:
            level = straight(points[number - 1], points[number]) == "level"
            most = deepest_bed(task, task.wall, level=level, protection=name)
            depths[number] = (
                task.route.depth[number - 1] if most is None else min(most, task.route.depth[number - 1])
            )
        if min(depths.values(), default=-1.0) >= 0:
            yield _flat(task, name, depths)


def _flat(task: Task, name: str, depths: dict[int, float]) -> Remedy:
    route = with_values(task.route, task.numbers, protection=name, depth=depths)
    facts = {"covering": task.pack.protections[name].words, "depth": mm(max(depths.values()))}
    words = say(
        "flat-covering", legs=leg_words(task.numbers), face=task.route.depth_from, **facts, **put_words(name)
    )
    return Remedy("choose-covering", words, _cost(task, name), task.with_route(route))


def _cost(task: Task, name: str) -> str:
    lengths = leg_lengths(task.route, task.site.rings.get(task.route.room or ""))
    covered = sum(lengths[number - 1] for number in task.numbers)
    return f"{say('covering-cost', length=mm(covered, places=0))} {covering_words(name)['cost']}"
