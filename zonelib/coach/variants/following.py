"""What is drawn in a room follows when its edges move: given cables, marked places and answers."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from zonelib.coach.variants.ends import ends_along
from zonelib.coach.variants.marks import moved
from zonelib.coach.variants.stretching import Stretch, placed_walls
from zonelib.exercise.bundle import Bundle
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.site.fields import Point
from zonelib.site.load import case_from_data
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["Following", "case_of"]

Data = dict[str, Any]


@dataclass(frozen=True)
class Following:
    """An exercise before and after some of its numbers were set.

    Attributes
    ----------
    before, after : dict
        Its data.
    bundle : Bundle
        The exercise before.
    case : Case
        Its case after, but for what follows.
    """

    before: Data
    after: Data
    bundle: Bundle
    case: Case

    @property
    def kind(self) -> str:
        """Of the exercise."""
        return str(self.before["kind"])

    @property
    def task(self) -> Data:
        """What is asked, before."""
        task: Data = self.before[self.kind]
        return task

    def write_answers(self) -> None:
        """Write into the data after where every answer goes, once given cables lie where they belong."""
        answers = FOLLOW.get(self.kind)
        if answers is None:
            return
        self.after["model"] = answers(self, self.before["model"])
        for old, new in zip(self.before.get("wrong", ()), self.after.get("wrong", ()), strict=True):
            new["answer"] = answers(self, old["answer"])

    def write_given(self) -> None:
        """Write into the data after where given cables, screws and remedies go."""
        case, task = self.after["case"], self.after[self.kind]
        for old, new in zip(self.before["case"].get("routes", ()), case.get("routes", ()), strict=True):
            new["points"] = self.stretch(old).points(old["points"])
        for old, new in zip(self.before["case"].get("fixings", ()), case.get("fixings", ()), strict=True):
            new["x"], new["y"] = self.stretch(old).point((old["x"], old["y"]))
        if "points" in task:
            task["points"] = self.asked.points(self.task["points"])
        for old, new in zip(self.task.get("remedies", ()), task.get("remedies", ()), strict=True):
            if old.get("points"):
                new["points"] = self.stretch(self.route(old["route"])).points(old["points"])

    def route(self, name: str) -> Data:
        """Return the data of a given cable, before."""
        return next(one for one in self.before["case"]["routes"] if one["id"] == name)

    @cached_property
    def failures(self) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
        """What fails before and after, once given cables have followed."""
        now = judge(case_of(self.after, self.bundle), self.bundle.pack)
        return self.bundle.verdict.failures, now.failures

    @cached_property
    def asked(self) -> Stretch:
        """Where places lie on the wall, or round the room, that is asked of."""
        return self.stretch(self.task)

    def stretch(self, owner: Data) -> Stretch:
        """Return where places lie on the wall, or round the room, that a table names."""
        where = {"wall": owner.get("wall") or "", "room": owner.get("room") or ""}
        before, after = (placed_walls(case, **where) for case in (self.bundle.case, self.case))
        pins: tuple[tuple[Point, Point], ...] = ()
        if self.task.get("start") and owner is self.task:
            pins = ((self.task["start"], self.after[self.kind]["start"]),)
        return Stretch(before, after, self.bundle.pack, pins, tuple(owner.get("joins") or ()))

    def joists(self) -> tuple[Joist, Joist]:
        """Return the joist that is asked of, before and after."""
        name = self.task["joist"]
        first, second = (
            next(one for one in case.joists if one.id == name) for case in (self.bundle.case, self.case)
        )
        return first, second


def case_of(data: Data, bundle: Bundle) -> Case:
    """Return the case of an exercise's data, its words read as the plain exercise reads them."""
    stated = {**data["case"], "readings": dict(bundle.case.readings)}
    return case_from_data(stated, bundle.pack.vocabulary)


def _route(following: Following, answer: Data) -> Data:
    points = answer.get("points")
    return {**answer, "points": following.asked.points(points)} if points else answer


def _zones(following: Following, answer: Data) -> Data:
    stretch = following.asked
    return {**answer, "areas": [stretch.points(ring) for ring in answer.get("areas", ())]}


def _fixings(following: Following, answer: Data) -> Data:
    """Return places such that the first fixing of each thing follows, not its corner."""
    stretch, places = following.asked, {}
    offsets = {one["id"]: one["fixings"][0] for one in following.task["items"]}
    for name, (x, y) in answer.get("places", {}).items():
        across, up = offsets.get(name, (0.0, 0.0))
        at = stretch.point((x + across, y + up))
        places[name] = [at[0] - across, at[1] - up]
    return {**answer, "places": places}


def _joist(following: Following, answer: Data) -> Data:
    before, after = following.joists()
    xs = [_along_joist(joist) for joist in (before, after)]
    ys = [[0.0, joist.depth / 2, joist.depth] for joist in (before, after)]
    holes = [{**one, "x": moved(one["x"], *xs), "y": moved(one["y"], *ys)} for one in answer.get("holes", ())]
    notches = [{**one, "x": moved(one["x"], *xs)} for one in answer.get("notches", ())]
    return {**answer, **({"holes": holes} if holes else {}), **({"notches": notches} if notches else {})}


def _along_joist(joist: Joist) -> list[float]:
    """Return its ends and the middle of every cut that is there already."""
    return [0.0, joist.span, *(one.x for one in joist.holes), *(one.x for one in joist.notches)]


def _inspect(following: Following, answer: Data) -> Data:
    return {**answer, "stretches": [_along(following, one) for one in answer.get("stretches", ())]}


def _along(following: Following, stretch: Data) -> Data:
    """Return a marked stretch between the places its ends have gone to."""
    name = stretch["route"]
    new = next(one for one in following.after["case"]["routes"] if one["id"] == name)
    way = ends_along((following.route(name)["points"], new["points"]), following.failures, name)
    return {**stretch, **{key: way.moved(stretch[key]) for key in ("from", "to") if key in stretch}}


FOLLOW: dict[str, Callable[[Following, Data], Data]] = {
    "route": _route,
    "zones": _zones,
    "fixings": _fixings,
    "joist": _joist,
    "inspect": _inspect,
}
"""How the answers of a kind follow; those of the others name nothing that lies anywhere."""
