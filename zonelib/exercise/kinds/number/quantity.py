"""The numbers that can be asked, each worked out by the engine from the case."""

from dataclasses import dataclass
from typing import Literal

from zonelib.exercise.kinds.number.task import UNITS, NumberTask
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.rules.legs import Leg, legs_of
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.site.model import Case, Route

__all__ = ["Quantity", "quantity"]


@dataclass(frozen=True)
class Found:
    """Which finding holds a number, and how one comes to it."""

    rule: str
    part: Literal["measured", "limit"]
    how: str


@dataclass(frozen=True)
class Quantity:
    """A number with the way to it.

    Attributes
    ----------
    value : float
        In the unit that is asked.
    how : str
        How one comes to it, without the number itself.
    clause : str
        What stands behind it.
    """

    value: float
    how: str
    clause: str


FOUND = {
    "deepest-chase": Found(
        "chase-depth", "limit",
        "Find the leaf, the layer that is cut; plaster is no part of it. The rule allows a share of the "
        "leaf. An upright chase has a greater share than a level one.",
    ),
    "chase-cut": Found(
        "chase-depth", "measured",
        "Start from the depth of the cable. Take off the plaster. Add what the cable or its covering takes.",
    ),
    "outside-zone": Found(
        "wall-zone", "measured",
        "Find the nearest edge of a zone. Measure from there to the far edge of the cable: half its width "
        "counts too.",
    ),
    "largest-hole": Found(
        "joist-hole-size", "limit", "Take the depth of the joist. The rule allows a share of it to a hole."
    ),
    "deepest-notch": Found(
        "joist-notch-depth", "limit", "Take the depth of the joist. The rule allows a share of it to a notch."
    ),
}  # fmt: skip

FROM_HERE = "Ask from which depth this face no longer counts as near. Depth is counted from this same face."
FROM_BEHIND = (
    "Depth is counted from the other face. Take the thickness of the wall. "
    "Take off what the cable takes, and the depth that must be left below this face."
)


def quantity(case: Case, pack: Pack, task: NumberTask) -> Quantity | None:
    """Return the number that is asked, or None where the case does not give exactly one."""
    found = _clear_depth(case, pack, task) if task.ask == "clear-depth" else _found(case, pack, task)
    if found is None:
        return None
    value, how, clause = found
    return Quantity(value / UNITS[task.unit], how, clause)


def _found(case: Case, pack: Pack, task: NumberTask) -> tuple[float, str, str] | None:
    told = FOUND[task.ask]
    found = [one for one in judge(case, pack).findings if one.rule == told.rule and _asked(one, task)]
    values = {getattr(one, told.part): one.clause for one in found}
    if task.ask == "outside-zone":  # the worst of several places is what is asked
        failed = [one for one in found if one.status == "fail" and one.measured is not None]
        values = {
            one.measured: one.clause for one in sorted(failed, key=lambda one: -(one.measured or 0))[:1]
        }
    values.pop(None, None)
    if len(values) != 1:
        return None
    ((value, clause),) = values.items()
    return float(value), told.how, clause


def _asked(one: Finding, task: NumberTask) -> bool:
    on_leg = task.leg is None or task.leg in one.where.legs
    return one.subject == task.of and on_leg and task.face in (None, one.where.face)


def _clear_depth(case: Case, pack: Pack, task: NumberTask) -> tuple[float, str, str] | None:
    """Return the depth, counted as the route's is, at which a face begins or ceases to be concerned."""
    routes = [route for route in case.routes if route.id == task.of and route.wall]
    legs = _legs(routes[0], case, pack, task) if routes else ()
    takes = {leg.thickness for leg in legs}
    if len(takes) != 1 or task.face is None:
        return None
    route, rules = routes[0], pack.walls
    if task.face == route.depth_from:
        return rules.trigger_depth, FROM_HERE, rules.clause
    wall = case.wall(route.wall or "")
    return wall.thickness - takes.pop() - rules.trigger_depth, FROM_BEHIND, rules.clause


def _legs(route: Route, case: Case, pack: Pack, task: NumberTask) -> tuple[Leg, ...]:
    legs = legs_of(route, case.wall(route.wall or ""), Rulebook(pack, case.readings))
    return tuple(leg for leg in legs if task.leg in (None, leg.number))
