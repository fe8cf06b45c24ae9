"""One case for each pack that holds something for every rule to look at."""

from typing import Any

from zonelib import Case, Pack, Verdict, judge
from zonelib.site.load import case_from_data

Data = dict[str, Any]
CABLE = {"width": 10, "thickness": 6}
SLANT = [[1200, 450], [2400, 2100]]


def specimen(pack: Pack) -> Verdict:
    """Return the verdict on a case of walls, a room, timber, a run and a fixing, in the pack's own names."""
    return judge(_case(pack), pack)


def _case(pack: Pack) -> Case:
    walls, routes = _walls(pack)
    timber = {"joists": _joists(pack), "studs": [_stud()], "runs": _runs(pack)} if pack.joists else {}
    room = {"id": "A", "plan": [[0, 0], [0, 3000], [4000, 3000], [4000, 0]], "height": 2400, "thickness": 200,
            "build": next(iter(pack.builds))}  # fmt: skip
    fixing = {"id": "F1", "wall": walls[0]["id"], "face": "front", "x": 600, "y": 1500, "penetration": 30,
              "diameter": 5}  # fmt: skip
    data = {"pack": pack.id, "walls": walls, "rooms": [room], "routes": [*routes, _through_the_void()]}
    return case_from_data({**data, **timber, "fixings": [fixing]}, pack.vocabulary)


def _walls(pack: Pack) -> tuple[list[Data], list[Data]]:
    """Return a wall of each build, and on each a cable that is bare, one that is covered, and one on SELV."""
    kind = next(name for name, one in pack.accessories.items() if one.zones)
    counting = [name for name, one in pack.protections.items() if one.counts]
    ways: list[Data] = [{}, {"supply": "selv"}, {"rcd": {"ma": 30}}]
    ways += [{"protection": one} for one in counting]
    size, plate = {"length": 3600, "height": 2400, "thickness": 240}, {"width": 86, "height": 86}
    walls, routes = [], []
    for build in pack.builds:
        socket = {"id": f"S-{build}", "kind": kind, "face": "front", "x": 1200, "y": 450, **plate}
        walls.append({"id": build, "build": build, **size, "accessories": [socket]})
        for number, way in enumerate(ways):
            route = {"id": f"{build}-{number}", "wall": build, "joins": [socket["id"]], "points": SLANT}
            routes.append({**route, "cable": CABLE, "depth": 20, **way})
    return walls, routes


def _through_the_void() -> Data:
    points = [[500, 1000], [500, 2400], [6000, 2400], [6000, 1000]]
    via = ["wall", "ceiling-void", "wall"]
    return {"id": "void", "room": "A", "points": points, "via": via, "depth": 20, "cable": CABLE}


def _joists(pack: Pack) -> list[Data]:
    """Return a member of each kind, each with two holes and two notches."""
    holes = [{"x": 1000, "y": 100, "diameter": 20}, {"x": 1900, "y": 100, "diameter": 20}]
    notches = [{"x": x, "length": 30, "depth": 20, "edge": "top"} for x in (500, 2500)]
    size = {"depth": 200, "width": 47, "span": 3000}
    kinds = pack.joists.kinds if pack.joists else {}
    return [{"id": kind, "kind": kind, **size, **_cut(kind, holes=holes, notches=notches)} for kind in kinds]


def _cut(member: str, **things: list[Data]) -> Data:
    return {key: _named(key[0], member, each) for key, each in things.items()}


def _named(letter: str, member: str, things: list[Data]) -> list[Data]:
    return [{"id": f"{letter}{number}-{member}", **one} for number, one in enumerate(things, start=1)]


def _stud() -> Data:
    holes = [{"x": 70, "y": 1200, "diameter": 20}]
    notches = [{"y": 600, "length": 40, "depth": 20, "edge": "front"}]
    size = {"depth": 140, "width": 38, "height": 2400, "bearing": True}
    return {"id": "ST1", **size, **_cut("ST1", holes=holes, notches=notches)}


def _runs(pack: Pack) -> list[Data]:
    kinds = pack.joists.kinds if pack.joists else {}
    run: Data = {"joist": next(iter(kinds), ""), "cable": CABLE}
    on_ceiling = {"void": "ceiling", "place": "on-ceiling"}
    return [{"id": "C1", "below_top": 60, **run}, {"id": "C2", **on_ceiling, **run}]
