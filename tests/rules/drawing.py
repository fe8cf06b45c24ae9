"""Random walls, routes and cases for properties, drawn by hypothesis; lengths to a tenth of a millimetre."""

from hypothesis import strategies as st

from tests.rules.cases import Data, route

__all__ = ["LENGTH", "accessories", "cases", "openings", "tenths", "walls"]

LENGTH = 3600.0
PROTECTIONS = ["none", "none", "none", "plastic-conduit", "earthed-steel-conduit", "armoured-cable"]


def tenths(low: int, high: int) -> st.SearchStrategy[float]:
    """Return lengths to a tenth of a millimetre, so that no case hangs on the last bit."""
    return st.integers(low * 10, high * 10).map(lambda value: value / 10)


@st.composite
def accessories(draw: st.DrawFn) -> list[Data]:
    return [
        {"id": f"S{n}", "kind": draw(st.sampled_from(["socket", "switch", "blank-plate", "pipe"])),
         "face": draw(st.sampled_from(["front", "rear"])), "x": draw(tenths(100, 3500)),
         "y": draw(tenths(100, 1000)), "width": draw(tenths(60, 180)), "height": 86.0,
         "locatable_from_reverse": draw(st.sampled_from([True, False, None]))}
        for n in range(draw(st.integers(1, 3)))
    ]  # fmt: skip


@st.composite
def openings(draw: st.DrawFn) -> list[Data]:
    size = {"width": draw(tenths(100, 900)), "height": draw(tenths(100, 1100))}
    one = {"id": "O1", "kind": "window", "x": draw(tenths(0, 2700)), "y": draw(tenths(0, 100)), **size}
    return [one] if draw(st.booleans()) else []


@st.composite
def walls(draw: st.DrawFn) -> Data:
    top = [[0.0, draw(tenths(1300, 2600))], [draw(tenths(200, 3400)), draw(tenths(1300, 2600))],
           [LENGTH, draw(tenths(1300, 2600))]]  # fmt: skip
    corners = st.lists(tenths(0, 3600), max_size=2)
    wall: Data = {
        "id": "W1", "length": LENGTH, "top": top,
        "thickness": draw(st.sampled_from([75.0, 100.0, 100.1, 200.0])),
        "build": draw(st.sampled_from(["masonry", "timber-stud", "metal-stud"])),
        "front": {"internal_corners": draw(corners)}, "rear": {"external_corners": draw(corners)},
        "accessories": draw(accessories()), "openings": draw(openings()),
    }  # fmt: skip
    # None stands for a key that the file leaves out.
    wall["accessories"] = [{k: v for k, v in one.items() if v is not None} for one in wall["accessories"]]
    return wall


@st.composite
def cases(draw: st.DrawFn) -> Data:
    wall = draw(walls())
    point = st.tuples(tenths(0, 3600), tenths(0, 2400)).map(list)
    points = draw(st.lists(point, min_size=2, max_size=5))
    names = [one["id"] for one in wall["accessories"]]
    one = route(
        points, joins=draw(st.lists(st.sampled_from(names), unique=True)),
        depth=[draw(tenths(0, 65)) for _ in points[1:]],
        protection=[draw(st.sampled_from(PROTECTIONS)) for _ in points[1:]],
        depth_from=draw(st.sampled_from(["front", "rear"])),
        supply=draw(st.sampled_from(["lv", "lv", "selv"])),
        rcd=draw(st.sampled_from([{"ma": 30}, {"ma": 100}, None])),
    )  # fmt: skip
    return {"pack": "uk", "walls": [wall], "routes": [one]}
