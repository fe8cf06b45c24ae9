"""One wall with one socket, to be changed key by key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

__all__ = ["WINDOW", "sample"]

WINDOW = {"id": "N1", "kind": "window", "x": 1150, "y": 1000, "width": 100, "height": 1000}


def sample(
    points: Sequence[tuple[float, float]],
    wall: dict[str, Any] | None = None,
    socket: dict[str, Any] | None = None,
    **route: Any,
) -> dict[str, Any]:
    """Return a case: a stud wall 3600 x 2400 x 100, a corner at each end, a two-gang socket at 1200, 450.

    Its zone: above 2250; left of 150 and right of 3450; 1127 to 1273 upright; 407 to 493 level.
    The cable, 10.3 x 6, lies 20 mm deep, so the rear, 74 mm deep, is not concerned; half its width is 5.15.
    """
    readings = route.pop("readings", {})
    plate = {"id": "S1", "kind": "socket", "face": "front", "x": 1200, "y": 450, "width": 146, "height": 86}
    house = {"id": "W1", "length": 3600, "height": 2400, "thickness": 100, "build": "timber-stud"}
    house |= {"front": {"internal_corners": [0], "external_corners": [3600]}, **(wall or {})}
    if "top" in house:
        del house["height"]
    house["accessories"] = [plate | (socket or {})]
    run = {"id": "R1", "wall": "W1", "joins": ["S1"], "cable": {"width": 10.3, "thickness": 6.0}, "depth": 20}
    run |= {"points": [list(p) for p in points], **route}
    return {"pack": "uk", "readings": readings, "walls": [house], "routes": [run]}
