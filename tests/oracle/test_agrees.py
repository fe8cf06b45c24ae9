"""The engine agrees with the second computation on random cases.

``ORACLE_CASES`` in the environment sets how many; ``python -m tests.oracle.run COUNT FIRST`` hunts farther.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from typing import Any, TypeAlias

import pytest

from tests.oracle import compare
from tests.oracle.compare import TIMBER_RULES, WALL_RULES, disagreements, findings
from tests.oracle.draw_cases import draw_case
from tests.oracle.run import hunt
from tests.oracle.sample import sample
from zonelib.rules.finding import Finding

Item: TypeAlias = dict[str, Any]
Change: TypeAlias = Callable[[Finding], Finding]

COUNT = int(os.environ.get("ORACLE_CASES", "500"))


def test_engine_and_second_computation_agree_on_random_walls_routes_joists_and_fixings() -> None:
    assert hunt(COUNT) == {}


def test_the_random_cases_bring_every_rule_to_every_status_it_has() -> None:
    seen = Counter((f.rule, str(f.status)) for seed in range(150) for f in findings(draw_case(seed)))
    due = {(rule, status) for rule in WALL_RULES for status in ("pass", "fail", "not-applicable")}
    due |= {(rule, status) for rule in TIMBER_RULES for status in ("pass", "fail")} | {("fixing", "caution")}
    due -= {("route-on-wall", "not-applicable"), ("depth-in-wall", "not-applicable")}
    assert {pair for pair in due if seen[pair] < 3} == set()


def test_the_random_cases_hold_what_the_text_singles_out() -> None:
    walls = [wall for seed in range(200) for wall in draw_case(seed)["walls"]]
    routes = [route for seed in range(200) for route in draw_case(seed)["routes"]]
    shares = {
        "sloping or valleyed tops": sum("top" in w for w in walls) / len(walls),
        "openings": sum(bool(w["openings"]) for w in walls) / len(walls),
        "thin walls": sum(w["thickness"] <= 100 for w in walls) / len(walls),
        "corners in mid-wall": sum(_mid_corner(w) for w in walls) / len(walls),
        "rear accessories": sum(any(a["face"] == "rear" for a in w["accessories"]) for w in walls)
        / len(walls),
        "several legs": sum(len(r["points"]) > 2 for r in routes) / len(routes),
        "conduit": sum("conduit" in str(r.get("protection")) for r in routes) / len(routes),
        "SELV or PELV": sum(r.get("supply", "lv") != "lv" for r in routes) / len(routes),
    }
    assert {name: share for name, share in shares.items() if share < 0.05} == {}


def _mid_corner(wall: Item) -> bool:
    corners = [
        x
        for face in ("front", "rear")
        for side in wall.get(face, {}).values()
        if isinstance(side, list)
        for x in side
    ]
    return any(0 < x < wall["length"] for x in corners)


@pytest.mark.parametrize(
    "change",
    [
        lambda f: replace(f, where=replace(f.where, to_mm=f.where.to_mm + 1.1)),
        lambda f: replace(f, where=replace(f.where, from_mm=f.where.from_mm - 1.1)),
        lambda f: replace(f, where=replace(f.where, legs=(1, 2))),
        lambda f: replace(f, where=replace(f.where, face="rear")),
        lambda f: replace(f, measured=f.measured + 0.05),
        lambda f: replace(f, status="pass"),
    ],
    ids=["to", "from", "legs", "face", "measured", "status"],
)
def test_a_fault_put_into_a_finding_is_noticed(change: Change, monkeypatch: pytest.MonkeyPatch) -> None:
    case = sample([(1200, 450), (300, 2330)])
    sound = findings(case)
    assert disagreements(case) == []
    faulty = tuple(change(f) if f.rule == "wall-zone" and f.status == "fail" else f for f in sound)
    monkeypatch.setattr(compare, "findings", lambda _: faulty)
    assert disagreements(case) != []


def test_a_finding_left_out_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    case = sample([(1200, 450), (1200, 2330)])
    kept: tuple[Finding, ...] = findings(case)[1:]
    monkeypatch.setattr(compare, "findings", lambda _: kept)
    assert any("missing" in line for line in disagreements(case))
