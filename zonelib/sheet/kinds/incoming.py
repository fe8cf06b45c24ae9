"""What a browser sends as an answer, looked at before anything else touches it."""

import math
from collections.abc import Callable, Collection
from typing import Any

__all__ = ["MOST_POINTS", "answer_troubles"]

MOST_POINTS = 60
FURTHEST = 100_000.0  # mm: no wall is 100 m long
DEEPEST = 2_000.0  # mm: no wall is 2 m thick
STRONGEST = 10_000.0  # mA
PARTS = ("points", "depth", "protection", "rcd")
RCD_PARTS = ("at", "delayed", "ma")
VIAS = ("wall", "ceiling-void", "floor-void")
RCD_PLACES = ("origin", "outlet")


def answer_troubles(value: object, known: Collection[str], *, via: bool = False) -> list[str]:
    """Say what keeps a value from being an answer.

    Parameters
    ----------
    value : object
        Anything: what the browser, or any program, has sent.
    known : collection of str
        The coverings a leg may have.
    via : bool
        Whether the way of each leg is part of it.

    Returns
    -------
    list of str
        One phrase for each trouble: what was found and what is allowed. Empty for an answer.
    """
    parts = (*PARTS, "via") if via else PARTS
    if not isinstance(value, dict) or sorted(map(str, value)) != sorted(parts):
        return [f"an answer has the parts {', '.join(parts)}, and no others; {_found(value)} was found"]
    points = _points_trouble(value["points"])
    if points:
        return [points]
    legs = max(len(value["points"]) - 1, 0)

    def is_known(covering: object) -> bool:
        return _among(covering, known)

    depth, covering = value["depth"], value["protection"]
    checks = [
        _legs_trouble(depth, legs, part="depth", allowed=_is_depth, words=f"0 to {DEEPEST:g} mm"),
        _legs_trouble(covering, legs, part="covering", allowed=is_known, words="one on the list"),
        _rcd_trouble(value["rcd"]),
    ]
    if via:
        checks.append(_legs_trouble(value["via"], legs, part="way", allowed=_is_via, words=", ".join(VIAS)))
    return [trouble for trouble in checks if trouble]


def _found(value: object) -> str:
    """Name a value shortly: hostile input is not repeated at length."""
    if isinstance(value, dict):
        return ", ".join(str(key)[:20] for key in list(value)[:6]) or "an empty record"
    return repr(value)[:40] if isinstance(value, int | float | bool | None) else type(value).__name__


def _is_number(value: object, low: float, high: float) -> bool:
    if not isinstance(value, int | float) or isinstance(value, bool):
        return False
    return math.isfinite(value) and low <= value <= high


def _is_depth(value: object) -> bool:
    return _is_number(value, 0.0, DEEPEST)


def _among(value: object, known: Collection[str]) -> bool:
    return isinstance(value, str) and value in known


def _is_via(value: object) -> bool:
    return _among(value, VIAS)


def _is_place(value: object) -> bool:
    if not isinstance(value, list | tuple) or len(value) != len(("x", "y")):
        return False
    return all(_is_number(part, -FURTHEST, FURTHEST) for part in value)


def _points_trouble(points: object) -> str:
    if not isinstance(points, list | tuple):
        return f"points must be a list; {_found(points)} was found"
    if len(points) > MOST_POINTS:
        return f"a route has at most {MOST_POINTS} points; {len(points)} were found"
    odd = next((number for number, point in enumerate(points, 1) if not _is_place(point)), None)
    return f"point {odd} must be two numbers up to {FURTHEST:g} mm" if odd else ""


def _legs_trouble(values: Any, legs: int, *, part: str, allowed: Callable[[object], bool], words: str) -> str:
    if not isinstance(values, list | tuple) or len(values) != legs:
        found = len(values) if isinstance(values, list | tuple) else _found(values)
        return f"there must be one {part} for each of the {legs} legs; {found} was found"
    odd = next((number for number, value in enumerate(values, 1) if not allowed(value)), None)
    return f"the {part} of leg {odd} must be {words}; {_found(values[odd - 1])} was found" if odd else ""


def _rcd_trouble(rcd: object) -> str:
    if rcd is None:
        return ""
    if not isinstance(rcd, dict) or sorted(map(str, rcd)) != sorted(RCD_PARTS):
        return f"an RCD has the parts {', '.join(RCD_PARTS)}, and no others; {_found(rcd)} was found"
    if not _is_number(rcd["ma"], 1.0, STRONGEST):
        return f"an RCD's rating must be 1 to {STRONGEST:g} mA; {_found(rcd['ma'])} was found"
    if not _among(rcd["at"], RCD_PLACES) or not isinstance(rcd["delayed"], bool):
        return "an RCD sits at the origin or at the outlet, and is delayed or is not"
    return ""
