"""The findings that the text asks for on routes round a room, worked out wall by wall.

Each piece of a route between two corners is judged as a plain route on a plain wall; only the rear of a
wall that two rooms share is put together from the rooms behind it.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from math import ceil, floor, hypot

from tests.oracle.facts import Expected, Item, at_most, case_readings, face_sheet, legs_of, per_leg
from tests.oracle.patched import Patch, Patched
from tests.oracle.plainly import (
    Question,
    chase,
    gap,
    in_wall,
    metal_wall,
    on_wall,
    wall_rcd,
    wall_zone,
)
from tests.oracle.sheet import Ground
from tests.oracle.unfold import Indoors, Side, unfold
from tests.oracle.walk import TOLERANCE, Leg

__all__ = ["Run", "cut", "expected"]

FACES = ("front", "rear")
Point = tuple[float, float]


@dataclass(frozen=True)
class Run:
    """An unbroken piece of a route on one wall, as a route of that wall alone.

    Attributes
    ----------
    side : Side
        The wall.
    route : dict
        The route, in the wall's front view.
    begin : float
        Where it begins along the whole route [mm].
    numbers : tuple of int
        For each of its legs, which leg of the whole route it is part of.
    """

    side: Side
    route: Item
    begin: float
    numbers: tuple[int, ...]

    def told(self, finding: Expected) -> Expected:
        """Return a finding of this piece in the words of the whole route."""
        legs = finding.legs and tuple(sorted({self.numbers[leg - 1] for leg in finding.legs}))
        ends = finding.ends and (finding.ends[0] + self.begin, finding.ends[1] + self.begin)
        return replace(finding, legs=legs, ends=ends, wall=self.side.wall["id"])


def expected(case: Item, shift: float = 0.0) -> list[Expected]:
    """Work out every finding of a case of rooms."""
    house = unfold(case)
    return [e for route in case["routes"] for e in _route(case, house, route, shift)]


def _route(case: Item, house: Indoors, route: Item, shift: float) -> list[Expected]:
    row = house.row(route["room"])
    by_wall: dict[str, list[Run]] = defaultdict(list)
    for run in cut(route, row):
        by_wall[run.side.wall["id"]].append(run)
    found = [_rcd(route, [run for runs in by_wall.values() for run in runs]), _joins(route, row)]
    found += _voids(route, row)
    for runs in by_wall.values():
        found += _on_one_wall(case, house, runs, shift)
    return found


def _on_one_wall(case: Item, house: Indoors, runs: list[Run], shift: float) -> list[Expected]:
    found = []
    for face in FACES:
        sheet = _sheet(case, house, runs[0], face)
        each = [e for run in runs for e in map(run.told, wall_zone(_question(case, run, shift), face, sheet))]
        found += _summed(each)
    found += _summed([run.told(metal_wall(run.side.wall, run.route, _all(run))) for run in runs])[:1]
    for run in runs:
        wall, route = run.side.wall, run.route
        for i in _all(run):
            each = [on_wall(wall, route, i), in_wall(wall, route, i), *chase(wall, route, i)]
            found += map(run.told, each)
    return found


def _summed(each: list[Expected]) -> list[Expected]:
    """Return the fails of all pieces, or one finding for all."""
    fails = [e for e in each if e.status == "fail"]
    return fails or [next((e for e in each if e.status == "pass"), each[0])]


def _all(run: Run) -> list[int]:
    return list(range(len(run.numbers)))


def _question(case: Item, run: Run, shift: float) -> Question:
    return Question(run.side.wall, run.route, case_readings(case), _all(run), shift)


def _sheet(case: Item, house: Indoors, run: Run, face: str) -> Ground:
    side, reading, joins = run.side, case_readings(case), run.route.get("joins", [])
    behind = house.behind[side.wall["id"]] if face == "rear" else []
    theirs = {a["id"] for one in behind for a in one.other.wall["accessories"] if a["face"] == "front"}
    alone = {**side.wall, "accessories": [a for a in side.wall["accessories"] if a["id"] not in theirs]}
    own = face_sheet(alone if behind else side.wall, face, reading, joins)
    patches = tuple(
        Patch(*one.span, one.at, face_sheet(one.other.wall, "front", reading, joins)) for one in behind
    )
    return Patched(own.length, own.top, own.openings, own, patches) if patches else own


def cut(route: Item, row: list[Side]) -> list[Run]:
    """Cut a route round a room at the corners, and where it goes through a void."""
    count = len(route["points"]) - 1
    depths, coverings = per_leg(route["depth"], count), per_leg(route.get("protection", "none"), count)
    runs: list[Run] = []
    for i, (leg, start) in enumerate(zip(legs_of(route), _marks(route, row), strict=False)):
        if _via(route)[i] != "wall" or leg.length <= TOLERANCE:
            continue
        for side, a, b, share in _parts(leg, row):
            begin = start + share * leg.length
            piece = _piece(route, (a, b), depths[i], coverings[i])
            last = runs[-1] if runs else None
            if last and last.side is side and abs(_end(last) - begin) < TOLERANCE:
                runs[-1] = _joined(last, piece, i + 1)
            else:
                runs.append(Run(side, piece, begin, (i + 1,)))
    return runs


def _via(route: Item) -> list[str]:
    return per_leg(route.get("via", "wall"), len(route["points"]) - 1)


def _marks(route: Item, row: list[Side]) -> list[float]:
    """Return where each leg begins along the route; a void is crossed straight, as the plan has it [mm]."""
    legs = zip(legs_of(route), _via(route), strict=True)
    lengths = [leg.length if via == "wall" else _across(leg, row) for leg, via in legs]
    return list(accumulate(lengths, initial=0.0))


def _across(leg: Leg, row: list[Side]) -> float:
    (x0, y0), (x1, y1) = (_in_plan(x, row) for x in (leg.start[0], leg.stop[0]))
    return hypot(x1 - x0, y1 - y0)


def _starts(row: list[Side]) -> list[float]:
    return list(accumulate((side.length for side in row), initial=0.0))


def _in_plan(x: float, row: list[Side]) -> Point:
    starts = _starts(row)
    once = x % starts[-1]
    side, begin = next((s, b) for s, b, e in zip(row, starts, starts[1:], strict=False) if b <= once <= e)
    share = (once - begin) / side.length
    (x0, y0), (x1, y1) = side.start, side.end
    return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


def _parts(leg: Leg, row: list[Side]) -> list[tuple[Side, Point, Point, float]]:
    """Return the pieces of a leg: wall, ends in its front view, and where along the leg it begins."""
    starts = _starts(row)
    low, high = sorted((leg.start[0], leg.stop[0]))
    turns = range(floor(low / starts[-1]) - 1, ceil(high / starts[-1]) + 1)
    corners = [turn * starts[-1] + x for turn in turns for x in starts[:-1]]
    run = leg.stop[0] - leg.start[0]
    shares = sorted((x - leg.start[0]) / run for x in corners if low + TOLERANCE < x < high - TOLERANCE)
    return [_part(leg, row, a, b) for a, b in pairwise([0.0, *shares, 1.0])]


def _part(leg: Leg, row: list[Side], a: float, b: float) -> tuple[Side, Point, Point, float]:
    (x0, y0), (x1, y1) = leg.start, leg.stop
    starts, middle = _starts(row), x0 + (a + b) / 2 * (x1 - x0)
    lap = middle - middle % starts[-1]
    side, begin = next(
        (s, lap + low)
        for s, low, high in zip(row, starts, starts[1:], strict=False)
        if low <= middle - lap <= high
    )
    ends = [(x0 + share * (x1 - x0) - begin, y0 + share * (y1 - y0)) for share in (a, b)]
    return side, ends[0], ends[1], a


def _piece(route: Item, ends: tuple[Point, Point], depth: float, covering: str) -> Item:
    kept = {key: route[key] for key in route if key not in {"room", "via"}}
    return kept | {"points": [list(end) for end in ends], "depth": [depth], "protection": [covering]}


def _end(run: Run) -> float:
    return run.begin + sum(leg.length for leg in legs_of(run.route))


def _joined(run: Run, piece: Item, number: int) -> Run:
    longer = {key: run.route[key] + piece[key] for key in ("depth", "protection")}
    route = run.route | longer | {"points": run.route["points"] + piece["points"][1:]}
    return Run(run.side, route, run.begin, (*run.numbers, number))


def _rcd(route: Item, runs: list[Run]) -> Expected:
    each = [wall_rcd(run.side.wall, run.route, _all(run)) for run in runs]
    idle = Expected("wall-rcd", route["id"], "not-applicable")
    return next((e for e in each if e.status != "not-applicable"), idle)


def _joins(route: Item, row: list[Side]) -> Expected:
    """Tell whether it touches, all walls laid in a row, every accessory it joins in this room."""
    starts, legs = (
        _starts(row),
        [leg for leg, via in zip(legs_of(route), _via(route), strict=True) if via == "wall"],
    )
    gaps: dict[str, float] = {}
    for side, begin in zip(row, starts, strict=False):
        for a in (a for a in side.wall["accessories"] if a["id"] in route.get("joins", [])):
            for lap in (-starts[-1], 0.0, starts[-1]):
                near = min(gap(leg, {**a, "x": a["x"] + begin + lap}) for leg in legs)
                gaps[a["id"]] = min(near, gaps.get(a["id"], near))
    if not gaps:
        return Expected("route-joins", route["id"], "not-applicable")
    return Expected("route-joins", route["id"], "pass" if at_most(max(gaps.values()), 0) else "fail")


def _voids(route: Item, row: list[Side]) -> list[Expected]:
    """Tell for each leg through a void whether it leaves and comes back at the top or the foot."""
    found = []
    for i, (leg, via) in enumerate(zip(legs_of(route), _via(route), strict=True), start=1):
        if via != "wall":
            edge = 0.0 if via == "floor-void" else row[0].wall["height"]
            good = all(at_most(abs(y - edge), 0) for _, y in (leg.start, leg.stop))
            found.append(Expected("route-in-void", route["id"], "pass" if good else "fail", legs=(i,)))
    return found
