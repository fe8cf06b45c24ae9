"""Make a route exercise of a measured room: the shortest run by the rules is its model answer."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.kinds import exercise_model
from zonelib.exercise.model import Exercise
from zonelib.exercise.trial import doubts, marked_answer, trials
from zonelib.rules.words import mm
from zonelib.sheet.survey.words import say
from zonelib.site.model import Case
from zonelib.site.ring import Ring, ring_of

__all__ = ["CEILING", "End", "Made", "ends", "made_exercise", "serves"]

CEILING = "ceiling."
"""Before the number of the wall at whose left end a cable comes from above."""

CABLE = {"width": 10.3, "thickness": 6.0}
DEPTH = 15.0
"""A flat cable of common size, as deep as plaster board and a little more [mm]."""

FROM_CORNER = 75.0
"""Where a cable from above begins: in the middle of a corner's zone [mm]."""

LOW = 40.0
"""A run along the floor, as a beginner draws it [mm]."""

NEAR, GRID = 100.0, 5.0
"""As near to a middle as this one draws through it, and otherwise on this grid [mm]."""

WRONG = 3
"""How many typical answers are kept at most."""


@dataclass(frozen=True)
class End:
    """Where a cable may begin or end.

    Attributes
    ----------
    name, words : str
        As the form knows it, and as a reader is told.
    place : tuple of float
        In the room unfolded [mm].
    """

    name: str
    words: str
    place: tuple[float, float]

    @property
    def joins(self) -> list[str]:
        """The accessory that it is, or none."""
        return [] if self.name.startswith(CEILING) else [self.name]


@dataclass(frozen=True)
class Made:
    """What came of it.

    Attributes
    ----------
    data : dict or None
        The exercise file's data; None where there is no run.
    words : str
        Why there is none, or "".
    length : float
        Of the shortest run [mm].
    """

    data: dict[str, Any] | None
    words: str = ""
    length: float = 0.0


def ends(case: Case, room: str) -> list[End]:
    """Return where a cable may begin or end: each accessory of the room, and the ceiling above each wall."""
    ring = ring_of(case, room)
    placed = list(zip(ring.walls, ring.starts[:-1], strict=True))
    own = [
        End(one.id, one.id, (start + one.x, one.y))
        for wall, start in placed
        for one in wall.accessories
        if one.face == "front"
    ]
    return [*own, *(_above(ring, number) for number in range(len(ring.walls)))]


def _above(ring: Ring, number: int) -> End:
    wall = ring.walls[number]
    (x0, y0), (x1, y1) = wall.profile[:2]
    x = min(FROM_CORNER, wall.length / 2, x1)
    words = say("start-ceiling", number=number + 1)
    return End(
        f"{CEILING}{number + 1}", words, (ring.starts[number] + x, y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    )


def made_exercise(data: dict[str, Any], case: Case, *, name: str, start: End, end: End) -> Made:
    """Return the exercise that asks for a run between two ends of a measured room.

    Parameters
    ----------
    data, case : dict, Case
        The room as a case file has it, and as read.
    name : str
        Id of the exercise.
    start, end : End
        Where the cable begins, and what it runs to.
    """
    from zonelib.coach.shortest import (
        bare_route,
        shortest_length,
    )  # scipy takes a while: only here is it needed
    from zonelib.coach.solver import Blocked

    asked = _asked(data, case.rooms[0].id, name=name, start=start, end=end)
    bundle = freeze(_exercise(asked))
    found = bare_route(bundle)
    if isinstance(found, Blocked):
        return Made(None, _blocked(found, end))
    if not found.verdict.passed:
        return Made(None, say("no-pass", why=found.verdict.failures[0].text))
    exact = [[_rounded(x), _rounded(y)] for x, y in found.route.points]
    asked["model"]["points"] = exact
    length = shortest_length(bundle) or round(found.length)
    asked["route"]["shortest"] = length
    asked["model"]["points"] = _neat(freeze(_exercise(asked)), asked["model"], (start, end))
    asked["hints"]["step"] = _step(asked["model"]["points"])
    asked["wrong"] = list(_wrong(asked, freeze(_exercise(asked))))
    return Made(asked, length=length)


def serves(data: dict[str, Any]) -> list[str]:
    """Return what `zonelib exercise check` would say against an exercise, without its file."""
    from zonelib.coach.shortest import length_doubts

    exercise = _exercise(data)
    bundle = freeze(exercise)
    return [*doubts(exercise, trials(exercise, bundle)), *length_doubts(exercise, bundle)]


def _exercise(data: dict[str, Any]) -> Exercise:
    return exercise_model("route").model_validate(data)


def _asked(data: dict[str, Any], room: str, *, name: str, start: End, end: End) -> dict[str, Any]:
    """Return the exercise with a straight run as its model answer, until a better is found."""
    from zonelib.rules.load import pack_for

    rule = pack_for(data).rcd
    model: dict[str, Any] = {"points": [list(start.place), list(end.place)]}
    if rule:
        model["rcd"] = {"ma": rule.most_ma, "at": rule.at[0]}
    words = {"start": start.words, "end": end.words}
    rcd = say("question-rcd") if rule else ""
    question = say("question", room=room, width=mm(CABLE["width"]), depth=mm(DEPTH), rcd=rcd, **words)
    return {
        "schema": 1, "id": name, "kind": "route", "title": say("title", **words), "question": question,
        "difficulty": 3, "aim": ["wall-zone", "wall-rcd"] if rule else ["wall-zone"], "case": data,
        "route": {
            "room": room, "joins": [*start.joins, *end.joins], "start": list(start.place), "cable": CABLE,
            "depth": DEPTH, "open": ["rcd"] if rule else [],
        },
        "hints": {"fact": say("fact"), "pointer": say("pointer"), "step": say("hint-straight")},
        "model": model,
    }  # fmt: skip


def _blocked(found: Any, end: End) -> str:
    told = say("no-run", missed=end.words)
    return f"{told} {say('no-run-gap', gap=mm(found.gap))}" if math.isfinite(found.gap) else told


def _neat(bundle: Bundle, model: dict[str, Any], both: tuple[End, End]) -> list[list[float]]:
    """Return the run as one would draw it, from middle to middle; the solver hugs every edge.

    It stays as it is where the drawn one does not earn all marks.
    """
    across, upward = [one.place[0] for one in both], [one.place[1] for one in both if one.joins]
    first, *others = model["points"]
    made = [first, *([_drawn(x, across), _drawn(y, upward)] for x, y in others)]
    points = [one for at, one in enumerate(made) if at == 0 or one != made[at - 1]]
    result = marked_answer(bundle, {**model, "points": points})
    return points if result.score == result.points else model["points"]


def _drawn(value: float, middles: list[float]) -> float:
    near = min(middles, key=lambda middle: abs(middle - value))
    return near if abs(near - value) <= NEAR else GRID * (value // GRID)


def _step(points: list[list[float]]) -> str:
    if len(points) < 3:  # noqa: PLR2004  a start, an end, and no bend
        return say("hint-straight")
    x, y = points[1]
    return say("hint-step", legs=len(points) - 1, x=mm(x), y=mm(y))


def _wrong(asked: dict[str, Any], bundle: Bundle) -> Iterator[dict[str, Any]]:
    """Yield typical answers that lose marks here, each with what it earns."""
    kept = 0
    for entry, answer in _typical(asked):
        result = marked_answer(bundle, answer)
        if result.status == "marked" and result.score < result.points and kept < WRONG:
            kept += 1
            yield {"words": say(entry), "answer": answer, "marks": round(result.score, 1)}


def _typical(asked: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    points, model = asked["model"]["points"], asked["model"]
    (x0, y0), (x1, y1) = points[0], points[-1]
    if "rcd" in model:
        yield "wrong-rcd", {"points": points}
    if abs(x1 - x0) > 1 and abs(y1 - y0) > 1:
        yield "wrong-slant", {**model, "points": [points[0], points[-1]]}
    corners = [[x0, y0], [x0, LOW], [x1, LOW], [x1, y1]]
    yield "wrong-floor", {**model, "points": [a for a, b in pairwise([*corners, [math.inf, 0]]) if a != b]}
    half = [(a + b) / 2 for a, b in zip(points[-2], points[-1], strict=True)]
    yield "wrong-short", {**model, "points": [*points[:-1], list(map(_rounded, half))]}


def _rounded(value: float) -> float:
    """Return a length finer than the engine's tolerance [mm]."""
    return round(value, 3) + 0.0
