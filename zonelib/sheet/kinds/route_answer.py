"""A route as the pad holds it, made from what a person or a saved file gives."""

from collections.abc import Sequence
from typing import Any

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say

__all__ = ["answer_with", "refuse_closed"]

LEFT: Any = object()
"""Stands for a part that is left as it is."""

RCD = {"at": "origin", "delayed": False}


def answer_with(
    bundle: Bundle,
    before: dict[str, Any],
    *,
    points: Any = LEFT,
    depth: Any = LEFT,
    protection: Any = LEFT,
    rcd: Any = LEFT,
    via: Any = LEFT,
) -> dict[str, Any]:
    """Return an answer with some parts set anew.

    Parameters
    ----------
    bundle : Bundle
        The exercise; it gives what nobody has set.
    before : dict
        The answer so far, or {}.
    points : sequence of pairs, optional
        Along the route, x and y [mm].
    depth, protection : optional
        One value for all legs, or one per leg; depth in [mm].
    rcd : dict or None, optional
        ``ma`` [mA], ``at``, ``delayed``; None for no RCD.
    via : optional
        ``wall`` or a void, one value for all legs or one per leg; held only where the exercise opens it.
    """
    given = bundle.exercise.task_as(RouteTask)
    placed = [list(point) for point in (before.get("points", []) if points is LEFT else points)]
    legs = max(len(placed) - 1, 0)
    ours = given.rcd.model_dump() if given.rcd else None
    ways = {"via": _per_leg(via, before.get("via"), "wall", legs=legs)} if "via" in given.open else {}
    return {
        "points": placed,
        "depth": _per_leg(depth, before.get("depth"), given.depth, legs=legs),
        "protection": _per_leg(protection, before.get("protection"), given.protection, legs=legs),
        "rcd": before.get("rcd", ours) if rcd is LEFT else ({**RCD, **rcd} if isinstance(rcd, dict) else rcd),
        **ways,
    }


def _per_leg(value: Any, before: list[Any] | None, given: Any, *, legs: int) -> list[Any]:
    if value is LEFT:
        return list(before) if before is not None and len(before) == legs else [given] * legs
    spread = isinstance(value, str) or not isinstance(value, Sequence)
    return [value] * legs if spread else list(value)


def refuse_closed(bundle: Bundle, **parts: Any) -> None:
    """Refuse parts that the exercise does not open, unless they are as given.

    Raises
    ------
    SheetTrouble
        Naming the part and what is open.
    """
    route = bundle.exercise.task_as(RouteTask)
    for name, value in parts.items():
        given: Any = getattr(route, name, "wall")  # only the way of a leg is never given
        given = given.model_dump() if name == "rcd" and given else given
        meant = {**RCD, **value} if isinstance(value, dict) else value
        if value is not LEFT and name not in route.open and meant != given:
            raise SheetTrouble(say("closed", part=name, open=", ".join(("points", *route.open))))
