"""The drawings of an inspection: the installation, and what fails in it beside what was marked."""

from collections.abc import Iterator

import shapely
from shapely import LineString
from shapely.ops import substring

from zonelib.draw import EVERY_PART, Scene, wall_scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.picture import as_given
from zonelib.exercise.kinds.inspect.answer import InspectAnswer
from zonelib.exercise.kinds.inspect.comparing import Compared
from zonelib.exercise.kinds.inspect.marking import compared
from zonelib.exercise.kinds.inspect.spans import Span
from zonelib.exercise.kinds.inspect.targets import inspected
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.marking import Result
from zonelib.rules.words import mm
from zonelib.site.model import Route

__all__ = ["blank", "scenes"]

PARTS = EVERY_PART - {"safety", "fixings"}
BLANK = PARTS - {"zones", "other-zones", "findings", "legend"}
KEY = {"marked": "what you marked as failing", "strayed": "marked, though it passes"}

WIDE = 0.75
"""Half the width of what is drawn round a marked stretch [em]."""


def blank(bundle: Bundle) -> tuple[Scene, ...]:
    """Return each wall with its cables as the question shows them."""
    routes = [route.id for route in _routes(bundle)]
    return tuple(
        as_given(wall_scene(bundle.case, wall, "front", bundle.pack, routes=routes, show=BLANK))
        for wall in _walls(bundle)
    )


def _routes(bundle: Bundle) -> tuple[Route, ...]:
    return inspected(bundle.case, bundle.exercise.task_as(InspectTask))


def _walls(bundle: Bundle) -> list[str]:
    return list(dict.fromkeys(route.wall for route in _routes(bundle) if route.wall))


def scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return each wall with what fails under the numbers of the findings, and what was marked."""
    if result.verdict is None or not isinstance(result.answer, InspectAnswer):
        return ()
    seen, routes = compared(bundle, result.answer, result.verdict), _routes(bundle)
    first = len(result.verdict.failures) + 1
    numbered = [(route, span) for route in routes for span in seen.strayed(route.id)]
    strays = list(enumerate(numbered, start=first))
    drawn = []
    for wall, scene in bundle.once(_judged):
        ours = [route for route in routes if route.wall == wall]
        marks = [*_marked(seen, ours, WIDE * scene.em), *_strayed(strays, wall, WIDE * scene.em)]
        drawn.append(overlaid(scene, marks, key=KEY))
    return tuple(drawn)


def _judged(bundle: Bundle) -> list[tuple[str, Scene]]:
    """Return each wall with what fails there."""
    found, names = bundle.verdict.findings, [route.id for route in _routes(bundle)]
    return [
        (wall, wall_scene(bundle.case, wall, "front", bundle.pack, findings=found, routes=names, show=PARTS))
        for wall in _walls(bundle)
    ]


def _marked(seen: Compared, routes: list[Route], wide: float) -> Iterator[Mark]:
    for route in routes:
        for one in seen.entries:
            if one.route == route.id and one.span is not None:
                yield Mark(
                    css="marked",
                    shape=_round(route, one.span, wide),
                    alt=f"Marked: {_said(route, one.span)}.",
                )
            elif one.route == route.id:
                alt = f"Marked: {route.id} as a whole."
                yield Mark(
                    css="marked", shape=_round(route, (0.0, seen.lengths[route.id]), 1.6 * wide), alt=alt
                )


def _strayed(strays: list[tuple[int, tuple[Route, Span]]], wall: str, wide: float) -> Iterator[Mark]:
    for n, (route, span) in strays:
        if route.wall == wall:
            alt = f"Number {n}: {_said(route, span)}, marked though it passes."
            yield Mark(css="strayed", shape=_round(route, span, wide), alt=alt, n=n)


def _said(route: Route, span: Span) -> str:
    return f"{route.id} from {mm(span[0], places=0)} to {mm(span[1], places=0)} mm"


def _round(route: Route, span: Span, wide: float) -> shapely.Polygon:
    return substring(LineString(route.points), *span).buffer(wide)
