"""Cases in one line each: a plain wall, one route and one joist, with what a test changes in them."""

from typing import Any

from zonelib import Case, Finding, Pack, Verdict, judge, load_pack
from zonelib.site.load import case_from_data
from zonelib.site.model import Route, Wall

UK = load_pack("uk")
RCD = {"ma": 30}
Data = dict[str, Any]

ORDER = ("fail", "caution", "pass", "not-applicable")


def accessory(name: str, x: float, y: float, **changes: Any) -> Data:
    """Return an accessory: a two gang socket on the front unless told otherwise."""
    usual = {"kind": "socket", "face": "front", "width": 146, "height": 86}
    return {"id": name, "x": x, "y": y, **usual, **changes}


def opening(name: str, x: float, y: float, width: float, height: float, *, kind: str = "window") -> Data:
    return {"id": name, "kind": kind, "x": x, "y": y, "width": width, "height": height}


def wall(**changes: Any) -> Data:
    """Return a stud wall too thick for its rear face to be concerned, with a socket S1 at (1200, 450)."""
    usual = {"id": "W1", "length": 3600, "thickness": 200, "build": "timber-stud"}
    height = {} if "top" in changes else {"height": 2400}
    return {**usual, **height, "accessories": [accessory("S1", 1200, 450)], **changes}


def route(points: Any, **changes: Any) -> Data:
    """Return a route of a 10 by 6 mm cable, 20 mm deep, with an RCD that counts."""
    cable = {"width": 10, "thickness": 6}
    usual = {"id": "R1", "wall": "W1", "joins": ["S1"], "depth": 20, "rcd": RCD, "cable": cable}
    data = {**usual, "points": [list(point) for point in points], **changes}
    return {key: value for key, value in data.items() if value is not None}


def one_route(points: Any, **changes: Any) -> Data:
    """Return the data of a case; changes go to the wall, the route or the case by their names."""
    of_wall = {key: value for key, value in changes.items() if key in Wall.model_fields}
    of_route = {key: value for key, value in changes.items() if key in Route.model_fields}
    rest = {key: value for key, value in changes.items() if key not in {**of_wall, **of_route}}
    return {"pack": "uk", "walls": [wall(**of_wall)], "routes": [route(points, **of_route)], **rest}


def joist(*, holes: Any = (), notches: Any = (), **changes: Any) -> Data:
    """Return the data of a case with one joist of 200 by 47 mm over 3 m, and what is cut in it."""
    usual = {"id": "J1", "kind": "solid", "depth": 200, "width": 47, "span": 3000}
    cut = {"holes": [hole(f"H{n}", **one) for n, one in enumerate(holes, start=1)],
           "notches": [notch(f"N{n}", **one) for n, one in enumerate(notches, start=1)]}  # fmt: skip
    return {"pack": "uk", "joists": [{**usual, **cut, **changes}]}


def hole(name: str, **changes: Any) -> Data:
    """Return a hole of 20 mm on the centre line, a third of the way along."""
    return {"id": name, "x": 1000, "y": 100, "diameter": 20, **changes}


def notch(name: str, **changes: Any) -> Data:
    """Return a notch in the top that breaks no limit, under a steel plate."""
    usual = {"x": 500, "length": 40, "depth": 20, "edge": "top", "protection": "steel-plate"}
    return {"id": name, **usual, **changes}


def made(data: Data, pack: Pack = UK) -> Case:
    return case_from_data(data, pack.vocabulary)


def judged(data: Data, pack: Pack = UK) -> Verdict:
    return judge(made(data, pack), pack)


def by_rule(verdict: Verdict) -> dict[str, str]:
    """Return for each rule the gravest status it came to."""
    statuses: dict[str, str] = {}
    for one in verdict.findings:
        statuses[one.rule] = min(one.status, statuses.get(one.rule, "not-applicable"), key=ORDER.index)
    return statuses


def found(verdict: Verdict, rule: str, *, face: str | None = None) -> Finding:
    """Return the first finding of a rule, on one face where told."""
    return next(one for one in verdict.findings if one.rule == rule and face in (None, one.where.face))
