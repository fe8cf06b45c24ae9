"""The ``inspect`` kind on the pad: stretches of given cables to mark, and what is to be said of each."""

from collections.abc import Iterator
from typing import Any

from shapely import LineString
from shapely.ops import substring

from zonelib.draw import Scene, wall_scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import as_given
from zonelib.exercise.kinds.inspect.answer import InspectAnswer
from zonelib.exercise.kinds.inspect.marking import compared
from zonelib.exercise.kinds.inspect.picture import BLANK
from zonelib.exercise.kinds.inspect.spans import Span
from zonelib.exercise.kinds.inspect.targets import inspected, route_length
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import MOST_TOLD, Data, PadKind, pictured, wall_part
from zonelib.sheet.kinds.cable import FACES
from zonelib.site.model import Route

__all__ = ["PAD"]

CHOSEN = {"route": "cables", "clause": "clauses", "remedy": "remedies", "why": "whys"}
"""What is said of a stretch, and the list of the task it is taken from."""

SHARES = (0.5, 0.15, 0.85, 0.3, 0.7)
"""Where along a stretch its number may stand, so that two on one stretch are told apart."""


class _InspectPad(PadKind):
    """Marked stretches with clause, remedy and reason, and a word on each cable as new work."""

    name = "inspect"
    intro = "start-inspect"

    def task(self, bundle: Bundle) -> Data:
        routes, task = _routes(bundle), bundle.exercise.task_as(InspectTask)
        wall = bundle.case.wall(routes[0].wall or "")
        names = [route.id for route in routes]
        scenes: dict[str, Scene] = {
            face: as_given(wall_scene(bundle.case, wall.id, face, bundle.pack, routes=names, show=BLANK))
            for face in FACES
        }
        cited = bundle.pack.citations
        return {
            **wall_part(wall),
            **pictured(bundle, scenes),
            "cables": [{"id": one.id, "points": [list(place) for place in one.points]} for one in routes],
            "clauses": [{"id": name, "words": f"{name}: {cited[name].about}"} for name in task.clauses],
            "remedies": [{"id": one.id, "words": one.words} for one in task.remedies],
            "whys": [{"id": one.id, "words": one.words} for one in task.whys],
            "asks": [one.check for one in bundle.criteria if one.check],
        }

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        if result.verdict is None or not isinstance(result.answer, InspectAnswer):
            return []
        lines = {route.id: LineString(route.points) for route in _routes(bundle)}
        places, used = dict(_places(bundle, result)), dict[tuple[str, int], int]()
        found = []
        for one in result.messages:
            if one.n in places:
                name, (low, high) = places[one.n]
                spot = name, round((low + high) / 2 / 200)
                share = SHARES[used.get(spot, 0) % len(SHARES)]
                used[spot] = used.get(spot, 0) + 1
                at = lines[name].interpolate(low + share * (high - low))
                points = [list(place) for place in substring(lines[name], low, high).coords]
                found.append(
                    {"n": one.n, "face": "front", "text": one.text, "points": points, "at": [at.x, at.y]}
                )
        return found

    def count(self, answer: Data) -> str:
        many = len(answer.get("stretches", ()))
        return f"{many} stretches" if many != 1 else "1 stretch"

    def still(self, bundle: Bundle, result: Result) -> Scene:  # noqa: ARG002  marks are no part of it
        return bundle.kind.blank(bundle)[0]

    def troubles(self, value: object, task: Data) -> list[str]:
        """Hold a value to the form of an answer, and to the names that the exercise offers."""
        found = super().troubles(value, task)
        if found or not task or not isinstance(value, dict):
            return found
        return list(_strange(value, task))[:MOST_TOLD]


def _strange(value: dict[str, Any], task: Data) -> Iterator[str]:
    known = {part: [one["id"] for one in task[among]] for part, among in CHOSEN.items()}
    for at, one in enumerate(value.get("stretches", ()), start=1):
        for part, names in known.items():
            if one.get(part) is not None and one[part] not in names:
                yield f"the {part} of stretch {at} must be one of {', '.join(names)[:120]}"
    if odd := [name for name in value.get("passes", {}) if name not in known["route"]]:
        yield f"{odd[0][:40]} is none of the cables {', '.join(known['route'])[:120]}"


def _routes(bundle: Bundle) -> tuple[Route, ...]:
    return inspected(bundle.case, bundle.exercise.task_as(InspectTask))


def _places(bundle: Bundle, result: Result) -> Iterator[tuple[int, tuple[str, Span]]]:
    """Yield where each number of the messages lies: on a cable, from mark to mark [mm]."""
    if result.verdict is None or not isinstance(result.answer, InspectAnswer):
        return
    seen, routes = compared(bundle, result.answer, result.verdict), _routes(bundle)
    whole = {route.id: (0.0, route_length(route)) for route in routes}
    for one in seen.targets:
        yield one.numbers[0], (one.route, one.span or whole[one.route])
    strays = [(route.id, span) for route in routes for span in seen.strayed(route.id)]
    yield from enumerate(strays, start=len(result.verdict.failures) + 1)


PAD = _InspectPad()
