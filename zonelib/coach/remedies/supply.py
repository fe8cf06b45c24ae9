"""Give the circuit an RCD that counts."""

from collections.abc import Iterator

from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import say
from zonelib.coach.remedies.task import Task
from zonelib.rules.words import mm
from zonelib.site.model import Rcd
from zonelib.site.tolerance import above

__all__ = ["choose_rcd", "depth_is_no_way"]


def choose_rcd(task: Task) -> Iterator[Advice]:
    """Yield the route with an RCD at the origin that counts."""
    rule, old = task.pack.rcd, task.route.rcd
    if rule is None:
        return
    ma = rule.most_ma if old is None or above(old.ma, rule.most_ma) else old.ma
    at = "origin" if "origin" in rule.at else rule.at[0]
    route = task.route.model_copy(update={"rcd": Rcd(ma=ma, at=at, delayed=False)})
    name = _change(task)
    yield Remedy("choose-rcd", say(name, ma=mm(ma), at=at), say(f"{name}-cost"), task.with_route(route))


def _change(task: Task) -> str:
    """Return what is done about the RCD: add one, move it, or put another in its place."""
    rcd, rule = task.route.rcd, task.pack.rcd
    if rcd is None or rule is None:
        return "rcd-new"
    return "rcd-move" if rcd.at not in rule.at else "rcd-other"


def depth_is_no_way(task: Task) -> Iterator[Advice]:
    """Yield that depth is no way out where metal parts lie in the wall."""
    build = task.pack.builds[task.wall.build].words
    yield Impossible("deepen", say("depth-no-way", build=build))
