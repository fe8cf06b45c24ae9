"""What makes a room the same exercise: its solution, the rules that bite, and what each mistake costs."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from zonelib.coach.shortest import bare_route, covered_route
from zonelib.coach.solver import Solution
from zonelib.coach.variants.difficulty import Difficulty, margin_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.marking import Result
from zonelib.exercise.model import Band, Exercise
from zonelib.exercise.trial import marked_answer
from zonelib.site.model import Route
from zonelib.site.tolerance import TOLERANCE

__all__ = ["Profile", "differs", "profile_of"]


@dataclass(frozen=True)
class Profile:
    """What is compared between a room and the exercise as it is written.

    Attributes
    ----------
    solved : tuple of str
        The way of the solver's run, leg by leg; of another kind, the names in the model answer.
    rules : frozenset of str
        Rules that apply to the model answer.
    full : bool
        Whether the model answer earns all marks.
    unmet : tuple of tuple of str
        By typical answer, the criteria that it does not meet.
    difficulty : Difficulty
        How hard it is; every typical answer counts as a trap here.
    marks : tuple of float
        What each typical answer earns.
    """

    solved: tuple[str, ...]
    rules: frozenset[str]
    full: bool
    unmet: tuple[tuple[str, ...], ...]
    difficulty: Difficulty
    marks: tuple[float, ...]


def profile_of(exercise: Exercise, bundle: Bundle, *, solved_on: Bundle | None = None) -> Profile:
    """Return the profile of an exercise, solved and marked.

    It is solved on another bundle where that differs in the stated length alone, and was searched before.
    """
    model = marked_answer(bundle, exercise.model)
    wrong = [marked_answer(bundle, one["answer"]) for one in exercise.wrong]
    unmet = tuple(tuple(one.id for one in result.criteria if not one.met) for result in wrong)
    solved = _solved(exercise, solved_on or bundle)
    legs = len(solved) if exercise.kind == "route" else _parts(exercise.model)
    difficulty = Difficulty(legs, margin_of(exercise, bundle, model), sum(map(bool, unmet)))
    full = model.status == "marked" and model.score == model.points
    marks = tuple(round(one.score, 1) for one in wrong)
    return Profile(solved, _rules(model), full, unmet, difficulty, marks)


def differs(plain: Profile, room: Profile, band: Band) -> str:
    """Return why a room is not as the plain exercise, or ""."""
    if not room.full:
        return "the model answer does not earn all marks"
    if room.rules != plain.rules:
        return "other rules apply"
    if room.solved != plain.solved and band.legs is None:
        return "the shortest run goes another way"
    return _beyond(plain, room, band)


def traps(plain: Profile, room: Profile) -> int:
    """Return how many typical answers lose marks for the same as in the plain exercise."""
    return sum(bool(one) and one == other for one, other in zip(plain.unmet, room.unmet, strict=True))


def _beyond(plain: Profile, room: Profile, band: Band) -> str:
    here, there = room.difficulty, plain.difficulty
    low, high = band.margin or (there.margin / 2, there.margin * 2)
    if not low - TOLERANCE <= here.margin <= high + TOLERANCE:
        return f"its tightest place leaves {here.margin:g} mm, not {low:g} to {high:g}"
    fewest, most = band.legs or (there.legs, there.legs)
    if not fewest <= here.legs <= most:
        return f"it takes {here.legs} legs, not {fewest} to {most}"
    least = there.traps if band.traps is None else band.traps
    kept = traps(plain, room)
    return f"{kept} typical answers lose the same marks, not {least}" if kept < least else ""


def _rules(result: Result) -> frozenset[str]:
    found = result.verdict.findings if result.verdict else ()
    return frozenset(one.rule for one in found if one.status != "not-applicable")


def _parts(model: dict[str, Any]) -> int:
    """Return how many things a model answer names, one where it is a single thing."""
    lists = (value for value in model.values() if isinstance(value, list | tuple | dict))
    return sum(map(len, lists)) or 1


def _solved(exercise: Exercise, bundle: Bundle) -> tuple[str, ...]:
    if exercise.kind != "route":
        return tuple(sorted(exercise.model))
    bare = bare_route(bundle)
    if isinstance(bare, Solution):
        return tuple(_ways(bare.route))
    if exercise.task_as(RouteTask).zone_serves:
        return ()
    covered = covered_route(bundle)
    return ("covered", *_ways(covered.route)) if isinstance(covered, Solution) else ()


def _ways(route: Route) -> list[str]:
    """Return which way each leg goes, bends without a leg left out."""
    ways: list[str] = []
    for (start, end), via in zip(pairwise(route.points), route.via, strict=True):
        way = via if via != "wall" else _way(end[0] - start[0], end[1] - start[1])
        if way and way not in ways[-1:]:
            ways.append(way)
    return ways


def _way(across: float, up: float) -> str:
    if abs(across) > abs(up):
        return "right" if across > 0 else "left"
    return ("up" if up > 0 else "down") if abs(up) > TOLERANCE else ""
