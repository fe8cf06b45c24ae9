"""What stays true of any wall: verdicts do not hang on how a case is written down."""

import math
from collections import Counter
from itertools import pairwise
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rules.cases import UK, Data, judged, made
from tests.rules.drawing import LENGTH, cases, tenths
from zonelib import Finding, Pack, Verdict, judge

few = settings(max_examples=25)


def gist(verdict: Verdict, *rules: str) -> Counter[tuple[str, str | None, str]]:
    """Return how often each rule came to each status on each face."""
    chosen = (one for one in verdict.findings if not rules or one.rule in rules)
    return Counter((one.rule, one.where.face, one.status) for one in chosen)


def outside(verdict: Verdict) -> list[Finding]:
    return [one for one in verdict.findings if one.rule == "wall-zone" and one.status == "fail"]


def spans(verdict: Verdict) -> list[tuple[Any, ...]]:
    """Return each stretch outside, to the millimetre that is promised."""
    return sorted(
        (one.where.face, one.where.from_mm, one.where.to_mm, one.measured or 0.0) for one in outside(verdict)
    )


def close(ours: list[tuple[Any, ...]], theirs: list[tuple[Any, ...]]) -> bool:
    """Tell whether stretches agree; on those shorter than a hundredth the tolerance decides."""
    ours, theirs = ([span for span in sorted(spans) if span[2] - span[1] > 0.02] for spans in (ours, theirs))
    return len(ours) == len(theirs) and all(
        one[0] == other[0] and max(abs(a - b) for a, b in zip(one[1:], other[1:], strict=True)) < 0.5
        for one, other in zip(ours, theirs, strict=True)
    )


def mirrored(data: Data) -> Data:
    (wall,), (one,) = data["walls"], data["routes"]

    def across(thing: Data) -> Data:
        return {
            **thing,
            "x": LENGTH - thing["x"] - (thing["width"] if "kind" in thing and "face" not in thing else 0),
        }

    faces = {
        side: {key: [LENGTH - x for x in xs] for key, xs in wall[side].items()} for side in ("front", "rear")
    }
    wall = {
        **wall, **faces, "top": [[LENGTH - x, y] for x, y in reversed(wall["top"])],
        "accessories": [across(thing) for thing in wall["accessories"]],
        "openings": [across(thing) for thing in wall["openings"]],
    }  # fmt: skip
    return {
        **data,
        "walls": [wall],
        "routes": [{**one, "points": [[LENGTH - x, y] for x, y in one["points"]]}],
    }


@few
@given(cases())
def test_mirroring_a_wall_mirrors_its_findings(data: Data) -> None:
    ours, theirs = judged(data), judged(mirrored(data))
    assert close(spans(ours), spans(theirs))
    others = [rule for rule in {one.rule for one in ours.findings} if rule != "wall-zone"]
    assert gist(ours, *others) == gist(theirs, *others)


def length_outside(verdict: Verdict, face: str) -> float:
    failed = [one.where for one in outside(verdict) if one.where.face == face]
    return sum((where.to_mm or 0.0) - (where.from_mm or 0.0) for where in failed)


def widened(pack: Pack, further: float) -> Pack:
    zones = tuple(
        rule.model_copy(update={"far": rule.far + further}) if rule.far else rule for rule in pack.zones
    )
    return pack.model_copy(update={"zones": zones})


@few
@given(cases(), tenths(0, 300))
def test_widening_a_zone_never_adds_length_outside(data: Data, further: float) -> None:
    before, after = judged(data), judge(made(data), widened(UK, further))
    for face in ("front", "rear"):
        assert length_outside(after, face) <= length_outside(before, face) + 0.01


@few
@given(cases(), tenths(0, 200))
def test_a_wider_accessory_never_adds_length_outside(data: Data, further: float) -> None:
    wall = data["walls"][0]
    wall["openings"] = []
    before = judged(data)
    for one in wall["accessories"]:
        room = 2 * min(one["x"], LENGTH - one["x"])
        one["width"] = min(one["width"] + further, room)
    after = judged(data)
    for face in ("front", "rear"):
        assert length_outside(after, face) <= length_outside(before, face) + 0.01


@few
@given(cases(), tenths(0, 100))
def test_a_deeper_cable_never_newly_concerns_that_face(data: Data, deeper: float) -> None:
    one, side = data["routes"][0], data["routes"][0]["depth_from"]
    before = judged(data)
    data["routes"][0] = {**one, "depth": [depth + deeper for depth in one["depth"]]}
    after = judged(data)
    assert length_outside(after, side) <= length_outside(before, side) + 0.01
    unconcerned = ("wall-zone", side, "not-applicable")
    assert gist(after)[unconcerned] >= gist(before)[unconcerned]


@few
@given(cases(), st.integers(0, 3), st.integers(1, 9))
def test_splitting_a_leg_changes_no_verdict(data: Data, leg: int, tenth: int) -> None:
    one = data["routes"][0]
    leg = min(leg, len(one["depth"]) - 1)
    (x0, y0), (x1, y1) = one["points"][leg : leg + 2]
    between = [x0 + (x1 - x0) * tenth / 10, y0 + (y1 - y0) * tenth / 10]
    split = {key: [*one[key][: leg + 1], *one[key][leg:]] for key in ("depth", "protection")}
    points = [*one["points"][: leg + 1], between, *one["points"][leg + 1 :]]
    before, after = judged(data), judged({**data, "routes": [{**one, **split, "points": points}]})
    assert close(spans(before), spans(after))
    same = ("wall-rcd", "metal-wall", "route-joins")
    assert gist(before, *same) == gist(after, *same)


def along_back(verdict: Verdict, length: float) -> list[tuple[Any, ...]]:
    return [(face, length - end, length - start, far) for face, start, end, far in spans(verdict)]


@few
@given(cases())
def test_reversing_a_route_changes_no_verdict(data: Data) -> None:
    one = data["routes"][0]
    back = {key: one[key][::-1] for key in ("points", "depth", "protection")}
    before, after = judged(data), judged({**data, "routes": [{**one, **back}]})
    rest = [rule for rule in {one.rule for one in before.findings} if rule != "wall-zone"]
    assert gist(before, *rest) == gist(after, *rest)
    ends = one["points"]
    length = sum(math.dist(*pair) for pair in pairwise(ends))
    assert close(spans(before), along_back(after, length))


@few
@given(cases(), st.integers(0, 4), st.sampled_from(["none", "armoured-cable"]), tenths(0, 65))
def test_a_point_drawn_twice_changes_no_verdict(data: Data, at: int, protection: str, depth: float) -> None:
    one = data["routes"][0]
    at = min(at, len(one["points"]) - 1)
    twice = {
        "points": [*one["points"][: at + 1], *one["points"][at:]],
        "depth": [*one["depth"][:at], depth, *one["depth"][at:]],
        "protection": [*one["protection"][:at], protection, *one["protection"][at:]],
    }
    before, after = judged(data), judged({**data, "routes": [{**one, **twice}]})
    assert gist(before) == gist(after)
    assert close(spans(before), spans(after))


@few
@given(cases(), cases())
def test_reordering_walls_and_routes_changes_no_verdict(data: Data, other: Data) -> None:
    second = {**other["walls"][0], "id": "W2", "openings": [], "accessories": []}
    crossing = {**other["routes"][0], "id": "R2", "wall": "W2", "joins": []}
    walls, routes = [*data["walls"], second], [*data["routes"], crossing]
    told = judged({**data, "walls": walls, "routes": routes})
    again = judged({**data, "walls": walls[::-1], "routes": routes[::-1]})
    assert Counter(told.findings) == Counter(again.findings)
    assert [one for one in told.findings if one.subject == "R1"] == list(judged(data).findings)
