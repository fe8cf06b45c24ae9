"""Studs and runs in one line each, with what a test changes in them."""

from typing import Any

from zonelib import Finding, Verdict, judge, load_pack
from zonelib.site.load import case_from_data

__all__ = ["judged_by", "run", "stud", "the"]

Data = dict[str, Any]
CABLE = {"width": 10, "thickness": 6}


def judged_by(pack: str, data: Data) -> Verdict:
    """Judge a case's data by a shipped pack, whatever pack they name."""
    rules = load_pack(pack)
    return judge(case_from_data({**data, "pack": pack}, rules.vocabulary), rules)


def stud(*, holes: Any = (), notches: Any = (), **changes: Any) -> Data:
    """Return the data of a case with one bearing stud of 140 by 38 mm; a hole is centred, a notch plated."""
    usual = {"id": "ST1", "depth": 140, "width": 38, "height": 2400, "bearing": True}
    hole = {"x": 70, "y": 1200, "diameter": 20}
    notch = {"y": 600, "length": 40, "depth": 20, "edge": "front", "protection": "steel-plate"}
    cut = {"holes": [{"id": f"H{n}", **hole, **one} for n, one in enumerate(holes, start=1)]}
    cut["notches"] = [{"id": f"N{n}", **notch, **one} for n, one in enumerate(notches, start=1)]
    stated = {**usual, **cut, **changes}
    return {"pack": "uk", "studs": [{key: value for key, value in stated.items() if value is not None}]}


def run(*, joist: Any = None, **changes: Any) -> Data:
    """Return the data of a case with a cable along a joist of 200 by 47 mm over 3 m."""
    member = {"id": "J1", "kind": "solid", "depth": 200, "width": 47, "span": 3000, **(joist or {})}
    return {
        "pack": "uk",
        "joists": [member],
        "runs": [{"id": "C1", "joist": "J1", "cable": CABLE, **changes}],
    }


def the(verdict: Verdict, rule: str) -> Finding:
    """Return the one finding of a rule."""
    (one,) = (finding for finding in verdict.findings if finding.rule == rule)
    return one
