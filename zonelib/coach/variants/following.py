"""What is drawn in a room follows when its edges move: given cables, marked places and answers."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Any

from zonelib.coach.variants.marks import moved
from zonelib.coach.variants.stretching import Stretch, placed_walls
from zonelib.rules.pack import Pack
from zonelib.site.fields import Point
from zonelib.site.model import Case
from zonelib.site.timber import Joist

__all__ = ["Following"]

Data = dict[str, Any]


@dataclass(frozen=True)
class Following:
    """An exercise before and after some of its numbers were set.

    Attributes
    ----------
    before, after : dict
        Its data.
    cases : tuple of Case
        Its case before and after.
    pack : Pack
        The rules.
    """

    before: Data
    after: Data
    cases: tuple[Case, Case]
    pack: Pack

    @property
    def kind(self) -> str:
        """Of the exercise."""
        return str(self.before["kind"])

    @property
    def task(self) -> Data:
        """What is asked, before."""
        task: Data = self.before[self.kind]
        return task

    def write(self) -> None:
        """Write into the data after all that follows: given cables and screws, then every answer."""
        self._given()
        answers = FOLLOW.get(self.kind)
        if answers is None:
            return
        self.after["model"] = answers(self, self.before["model"])
        for old, new in zip(self.before.get("wrong", ()), self.after.get("wrong", ()), strict=True):
            new["answer"] = answers(self, old["answer"])

    def _given(self) -> None:
        case, task = self.after["case"], self.after[self.kind]
        for old, new in zip(self.before["case"].get("routes", ()), case.get("routes", ()), strict=True):
            new["points"] = self.stretch(old).points(old["points"])
        for old, new in zip(self.before["case"].get("fixings", ()), case.get("fixings", ()), strict=True):
            new["x"], new["y"] = self.stretch(old).point((old["x"], old["y"]))
        if "points" in task:
            task["points"] = self.stretch(self.task).points(self.task["points"])
        for old, new in zip(self.task.get("remedies", ()), task.get("remedies", ()), strict=True):
            if old.get("points"):
                new["points"] = self.stretch(self.route(old["route"])).points(old["points"])

    def route(self, name: str) -> Data:
        """Return the data of a given cable, before."""
        return next(one for one in self.before["case"]["routes"] if one["id"] == name)

    def stretch(self, owner: Data) -> Stretch:
        """Return where places lie on the wall, or round the room, that a table names."""
        where = {"wall": owner.get("wall") or "", "room": owner.get("room") or ""}
        before, after = (placed_walls(case, **where) for case in self.cases)
        pins: tuple[tuple[Point, Point], ...] = ()
        if self.task.get("start") and owner is self.task:
            pins = ((self.task["start"], self.after[self.kind]["start"]),)
        return Stretch(before, after, self.pack, pins, tuple(owner.get("joins") or ()))

    def joists(self) -> tuple[Joist, Joist]:
        """Return the joist that is asked of, before and after."""
        name = self.task["joist"]
        first, second = (next(one for one in case.joists if one.id == name) for case in self.cases)
        return first, second


def _route(following: Following, answer: Data) -> Data:
    points = answer.get("points")
    return {**answer, "points": following.stretch(following.task).points(points)} if points else answer


def _zones(following: Following, answer: Data) -> Data:
    stretch = following.stretch(following.task)
    return {**answer, "areas": [stretch.points(ring) for ring in answer.get("areas", ())]}


def _fixings(following: Following, answer: Data) -> Data:
    """Return places such that the first fixing of each thing follows, not its corner."""
    stretch, places = following.stretch(following.task), {}
    offsets = {one["id"]: one["fixings"][0] for one in following.task["items"]}
    for name, (x, y) in answer.get("places", {}).items():
        across, up = offsets.get(name, (0.0, 0.0))
        at = stretch.point((x + across, y + up))
        places[name] = [at[0] - across, at[1] - up]
    return {**answer, "places": places}


def _joist(following: Following, answer: Data) -> Data:
    before, after = following.joists()
    xs = [[0.0, joist.span, *(hole.x for hole in joist.holes)] for joist in (before, after)]
    ys = [[0.0, joist.depth / 2, joist.depth] for joist in (before, after)]
    holes = [{**one, "x": moved(one["x"], *xs), "y": moved(one["y"], *ys)} for one in answer.get("holes", ())]
    notches = [{**one, "x": moved(one["x"], *xs)} for one in answer.get("notches", ())]
    return {**answer, **({"holes": holes} if holes else {}), **({"notches": notches} if notches else {})}


def _inspect(following: Following, answer: Data) -> Data:
    return {**answer, "stretches": [_along(following, one) for one in answer.get("stretches", ())]}


def _along(following: Following, stretch: Data) -> Data:
    """Return a marked stretch between the places its ends have gone to."""
    old = following.route(stretch["route"])
    new = next(one for one in following.after["case"]["routes"] if one["id"] == stretch["route"])
    ends: Data = {
        key: _end(old["points"], new["points"], stretch[key]) for key in ("from", "to") if key in stretch
    }
    return {**stretch, **ends}


def _end(old: Sequence[Any], new: Sequence[Any], along: float) -> float:
    """Return how far along a cable a mark lies once it keeps its share of its leg [mm]."""
    before, after = list(_run(old)), list(_run(new))
    return moved(along, before, after)


def _run(points: Sequence[Any]) -> Iterator[float]:
    yield from accumulate((math.dist(*ends) for ends in pairwise(points)), initial=0.0)


FOLLOW: dict[str, Callable[[Following, Data], Data]] = {
    "route": _route,
    "zones": _zones,
    "fixings": _fixings,
    "joist": _joist,
    "inspect": _inspect,
}
"""How the answers of a kind follow; those of the others name nothing that lies anywhere."""
