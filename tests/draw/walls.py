"""Walls for the drawing tests: some by hand, and any that Hypothesis can think of."""

from collections.abc import Sequence
from typing import Any

from hypothesis import strategies as st

from zonelib.draw import Scene, wall_scene
from zonelib.rules.engine import judge
from zonelib.rules.pack import load_pack
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Side

UK = load_pack("uk")
KINDS = ("socket", "switch", "fused-connection", "wall-light", "thermostat", "radiator")


def case_of(data: dict[str, Any]) -> Case:
    """Return a case from data as a file would hold them."""
    return case_from_data({"pack": "uk", **data}, UK.vocabulary)


def scene_of(case: Case, face: Side = "front", **options: Any) -> Scene:
    """Return the judged drawing of a case's first wall."""
    return wall_scene(case, case.walls[0].id, face, UK, findings=judge(case, UK).findings, **options)


def socket(identity: str = "S1", x: float = 1200, y: float = 450, **more: Any) -> dict[str, Any]:
    """Return a double socket."""
    return {
        "id": identity,
        "kind": "socket",
        "face": "front",
        "x": x,
        "y": y,
        "width": 146,
        "height": 86,
        **more,
    }


def wall(**more: Any) -> dict[str, Any]:
    """Return a plain wall with one socket."""
    plain = {"id": "W1", "length": 3600, "height": 2400, "thickness": 140, "build": "timber-stud"}
    return {**plain, "accessories": [socket()], **more}


def route(points: Sequence[tuple[float, float]], **more: Any) -> dict[str, Any]:
    """Return a route that joins S1."""
    plain = {"id": "R1", "wall": "W1", "joins": ["S1"], "rcd": {"ma": 30}, "depth": 20, "points": points}
    return {**plain, "cable": {"width": 10.3, "thickness": 6.0}, **more}


SLANT = case_of({"walls": [wall()], "routes": [route([(1200, 450), (300, 2330)])]})
"""A cable that leaves the zones on one slanting leg."""


@st.composite
def any_case(draw: st.DrawFn) -> Case:
    """Draw a wall of any size with whatever may hang on it, and routes that may run anywhere."""
    length = draw(st.integers(400, 9000))
    heights = draw(st.lists(st.integers(600, 3000), min_size=2, max_size=4))
    bends = [index * length / (len(heights) - 1) for index in range(len(heights))]
    top = list(zip(bends, heights, strict=True))
    low = min(heights)
    accessories = [_accessory(draw, index, length, low) for index in range(draw(st.integers(0, 9)))]
    data = wall(
        length=length, top=top, thickness=draw(st.sampled_from([75, 100, 140, 215])),
        build=draw(st.sampled_from(["masonry", "timber-stud", "metal-stud"])),
        accessories=accessories, openings=_openings(draw, length, low),
        front={"internal_corners": draw(st.lists(st.integers(0, length), max_size=3, unique=True))},
    )  # fmt: skip
    del data["height"]
    routes = [_route(draw, index, length, low, accessories) for index in range(draw(st.integers(0, 3)))]
    return case_of({"walls": [data], "routes": routes})


def _accessory(draw: st.DrawFn, index: int, length: int, low: int) -> dict[str, Any]:
    wide, tall = draw(st.sampled_from([(86, 86), (146, 86), (25, 50), (300, 200)]))
    x = draw(st.integers(wide // 2 + 1, length - wide // 2 - 1))
    y = draw(st.integers(tall // 2 + 1, low - tall // 2 - 1))
    name = draw(st.sampled_from(["S", "Kitchen<&>", "Éé"]))
    return {
        "id": f"{name}{index}", "kind": draw(st.sampled_from(KINDS)),
        "face": draw(st.sampled_from(["front", "rear"])), "x": x, "y": y, "width": wide, "height": tall,
        "visible": draw(st.booleans()), "locatable_from_reverse": draw(st.booleans()),
    }  # fmt: skip


def _openings(draw: st.DrawFn, length: int, low: int) -> list[dict[str, Any]]:
    if draw(st.booleans()):
        return []
    size = {"width": length // 3, "height": low // 2}
    return [{"id": "D1", "kind": "door", "x": draw(st.integers(0, length - length // 3)), "y": 0, **size}]


def _route(
    draw: st.DrawFn, index: int, length: int, low: int, things: list[dict[str, Any]]
) -> dict[str, Any]:
    points = st.tuples(st.integers(-500, length + 500), st.integers(-300, low + 800))
    joins = draw(st.lists(st.sampled_from([thing["id"] for thing in things]), unique=True)) if things else []
    rcd = {"rcd": {"ma": draw(st.sampled_from([30, 100]))}} if draw(st.booleans()) else {}
    made = route(draw(st.lists(points, min_size=2, max_size=6)), id=f"R{index}", joins=joins)
    return {**made, **rcd, "depth": draw(st.sampled_from([20, 60]))}
