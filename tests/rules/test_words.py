"""The words of every outcome of every rule, each brought about by a real case."""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any
from unittest.mock import patch

import pytest

from tests.house.test_plain_words import BLAME, long_ones
from tests.rules.cases import accessory, joist, judged, one_route, opening
from tests.rules.timber import judged_by, run, stud
from zonelib import Finding, Pack, load_pack
from zonelib.rules import saying
from zonelib.rules.words import templates, words

UP = [(1200, 450), (1200, 2400)]
SLANT = [(1200, 450), (2400, 2100)]
BENT = [(1200, 450), (1200, 600), (1300, 600), (1300, 800), (1400, 800), (1400, 900)]
DOOR = [opening("D1", 2000, 0, 800, 2000, kind="door")]
METAL = {"build": "metal-stud"}
BRICK = {"build": "masonry", "thickness": 126}
ARMOUR = {"protection": "armoured-cable"}
BARE = {"protection": "none"}
FIXING = {"id": "F1", "wall": "W1", "face": "front", "x": 2600, "y": 1500, "penetration": 30, "diameter": 5}
OTHER_READING = {"readings": {"rcd_outside_zone": "yes"}}
NOT_BY_RULE = {"kind": "i-joist", "holes": [{}, {"x": 1100}], "notches": [{}]}
TIGHT = {"holes": [{"x": 300, "y": 60, "diameter": 60}, {"x": 310, "diameter": 60}, {"x": 1500}],
         "notches": [{"x": 200, "depth": 60, "edge": "bottom", **BARE}, {"x": 1000}]}  # fmt: skip
NO_TOP = load_pack("uk").model_copy(update={"zones": load_pack("uk").zones[2:]})
PARTLY = ["none", "armoured-cable", "none", "armoured-cable", "none"]

# every outcome of every rule comes of one of these
CASES: list[dict[str, Any]] = [
    one_route(SLANT, rcd=None),
    one_route(SLANT, via="ceiling-void"),
    one_route([(1200, 2400), (2400, 2400)], via="ceiling-void", **METAL),
    one_route(UP),
    one_route(BENT, protection=PARTLY, rcd=None, **METAL),
    one_route(SLANT, supply="selv", **METAL),
    one_route(SLANT, **ARMOUR, **METAL),
    one_route(SLANT, depth=60, rcd={"ma": 100}, **METAL),
    one_route(SLANT, rcd={"ma": 30, "at": "outlet"}, **METAL),
    one_route(SLANT, rcd={"ma": 30, "delayed": True}, **METAL),
    one_route(UP, **METAL),
    one_route(SLANT, **OTHER_READING),
    one_route([(1200, 600), (2500, 600), (2500, 2500)], openings=DOOR),
    one_route(UP, joins=[], depth=-5),
    one_route(UP, depth=50, **BRICK),
    one_route(UP, depth=20, **BRICK),
    one_route(SLANT, depth=20, **BRICK),
    one_route(SLANT, depth=2, **BRICK),
    joist(**TIGHT),
    joist(holes=[{}, {"x": 1100, **ARMOUR, "y": 101}], notches=[{}]),
    joist(**NOT_BY_RULE),
    joist(depth=300, holes=[{"y": 150}]),
    joist(),
    one_route(UP, fixings=[FIXING, {**FIXING, "id": "F2", "penetration": 60}]),
    one_route(UP, fixings=[{**FIXING, "x": 1200}]),
    one_route(UP, fixings=[{**FIXING, "x": 2400}, {**FIXING, "id": "F2", "x": -10}], openings=DOOR),
]  # fmt: skip
GERMAN = [
    one_route([(1200, 450), (1200, 2100), (1500, 2150)]),
    one_route(UP, depth=80),
]
# in the United States: what other packs do not ask for, each at its worst and within its limits
PLATED = {"protection": "steel-plate"}
AMERICAN = [
    *(one_route(UP, **one) for one in ({"depth": 20}, {"depth": 2}, {"depth": 60}, PLATED, BRICK)),
    joist(holes=[{}, {"x": 1010}, {"x": 1060}, {"x": 2000, "y": 20}], notches=[{"length": 90}, {"x": 1900}]),
    joist(holes=[{}], notches=[{"x": 1000, "depth": 110}]),
    joist(holes=[{"y": 8}]),
    stud(holes=[{"x": 8}, {"x": 20}]),
    stud(holes=[{"x": 10, "diameter": 60}, {}], notches=[{"y": 1200, "depth": 50, **BARE}, {}]),
    stud(holes=[{"y": 700, **PLATED}, {"y": 625}], notches=[{}], bearing=None),
    stud(),
]
FEWER: dict[str, dict[str, Any]] = {
    "studs": {"clear_of_notches": None},
    "joists.hole": {"clear_of_holes": None},
    "joists.notch": {"to": None, "clear_of_holes": None},
    "": {"low_voltage_counts": True},
}
MORE: dict[str, dict[str, Any]] = {"studs": {"clear_of_notches": 50}}
LEAST = [joist(holes=[{}, {"x": 1500}], notches=[{}]), stud(holes=[{}], notches=[{}]),
         one_route(UP, supply="selv")]  # fmt: skip
RUNS = [
    *(run(below_top=height) for height in (60, 20, -5)),
    *(run(below_top=60, **one) for one in (ARMOUR, {"supply": "selv"}, {"to": 3100})),
    *(
        run(place=place, void=void)
        for place, void in (("over", "both"), ("over", "ceiling"), ("on-ceiling", "both"))
    ),
    stud(holes=[{}]),
]

Said = tuple[str, Finding]


@cache
def said() -> tuple[Said, ...]:
    """Return every outcome that the cases come to, each with its finding."""
    told: list[str] = []

    def noting(rule: str, outcome: str, **facts: object) -> tuple[str, str]:
        told.append(f"{rule}.{outcome}")
        return words(rule, outcome, **facts)

    with patch.object(saying, "words", noting):
        findings = list(_findings())
    return tuple(zip(told, findings, strict=True))


def _findings() -> Iterator[Finding]:
    for data in CASES:
        yield from judged(data).findings
    yield from judged(one_route(SLANT, joins=[]), NO_TOP).findings
    for data in GERMAN:
        yield from judged_by("de", data).findings
    for data in AMERICAN:
        yield from judged_by("us", data).findings
    for data in LEAST:
        yield from judged({**data, "pack": "us"}, changed(load_pack("us"), FEWER)).findings
    apart = stud(holes=[{"y": 640}], notches=[{}])
    yield from judged({**apart, "pack": "us"}, changed(load_pack("us"), MORE)).findings
    for data in RUNS:
        yield from judged(data).findings
        yield from judged_by("anz", {**data, "runs": [bare(one) for one in data.get("runs", ())]}).findings


def bare(piece: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in piece.items() if key != "protection"}


def changed(pack: Pack, changes: dict[str, dict[str, Any]]) -> Pack:
    """Return a pack with values changed in some of its tables."""
    data = pack.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    for path, values in changes.items():
        table = data
        for key in filter(None, path.split(".")):
            table = table[key]
        table.update(values)
    return Pack.model_validate(data)


def failing() -> list[Any]:
    told: dict[str, Finding] = {}
    for outcome, finding in said():
        if finding.status == "fail":
            told.setdefault(outcome, finding)
    return [pytest.param(outcome, finding, id=outcome) for outcome, finding in told.items()]


def numbers(text: str) -> list[float]:
    return [float(one.replace(",", "")) for one in re.findall(r"\d[\d,]*(?:\.\d+)?", text)]


def shown(value: float, text: str) -> bool:
    return any(abs(number - abs(value)) <= 0.0501 for number in numbers(text))


def test_every_outcome_is_brought_about_by_a_case() -> None:
    listed = {f"{rule}.{outcome}" for rule, outcomes in templates().items() for outcome in outcomes}
    assert {outcome for outcome, _ in said()} == listed


@pytest.mark.parametrize("part", ["text", "reason"])
def test_every_sentence_is_short_and_plain(part: str) -> None:
    for outcome, finding in said():
        words = getattr(finding, part)
        assert long_ones(words) == [], outcome
        assert BLAME.findall(words) == [], outcome
        assert "{" not in words, outcome
        assert not re.search(r"\bNone\b|\*|_\w+_", words), outcome
        assert "  " not in words, outcome


def test_every_text_is_whole_sentences() -> None:
    for outcome, finding in said():
        assert re.match(r"[A-Z]", finding.text), outcome
        assert finding.text.endswith("."), outcome
        assert not finding.reason.endswith("."), outcome


@pytest.mark.parametrize(("outcome", "finding"), failing())
def test_a_failure_tells_measure_limit_place_and_clause(outcome: str, finding: Finding) -> None:
    text = finding.text
    assert finding.subject in text or "leg" in text.lower() or "route" in text
    if finding.where.face and outcome != "route-joins.apart":
        assert f"{finding.where.face} face" in text
    if finding.measured is not None and not outcome.endswith("-cover.notch"):
        assert shown(finding.measured, text)
    if finding.limit and not outcome.endswith("-cover.notch"):
        assert shown(finding.limit, text)
    if finding.clause and finding.clause != "practice":
        assert "Clause" in text
        assert text.index("Clause") > text.index(".")


# why it matters, to the next person with a drill or to the building
HAZARDS = {
    "route-in-void.apart": "nothing is drawn to hold it",
    "wall-zone.outside": "the next person with a drill",
    "wall-zone.no-zone": "next person with a drill",
    "wall-line.slanting": "next person with a drill",
    "wall-rcd.missing": "If a drill touches the cable",
    "metal-wall.missing": "make the whole wall live",
    "route-joins.apart": "has to arrive there",
    "route-on-wall.off": "nothing to lie in",
    "route-on-wall.opening": "no wall there",
    "depth-in-wall.out": "stand 5 mm out",
    "chase-depth.deep": "weakens the wall",
    "chase-line.slanting": "nobody expects a cable on a slant",
    "joist-cover.thin": "a nail reaches the cable",
    "joist-cover.notch": "a nail reaches the cable",
    "joist-kind.not-by-rule": "bring the floor or roof down",
    "joist-kind.too-deep": "carries more",
    "joist-hole-size.large": "weakens the joist",
    "joist-hole-position.near": "carries its load",
    "joist-hole-position.far": "bends most",
    "joist-hole-centre.off": "stressed least",
    "joist-hole-spacing.close": "one long slot",
    "joist-notch-depth.deep": "weakens the joist",
    "joist-notch-position.near": "weakens the joist",
    "joist-notch-position.far": "bends most",
    "joist-notch-edge.other": "splits",
    "joist-notch-gap.close": "one weak place",
    "joist-notch-gap.overlap": "one weak place",
    "joist-hole-spacing.close-edges": "one long slot",
    "joist-hole-spacing.overlap": "one long slot",
    "joist-hole-edge.near": "carries the load",
    "joist-notch-length.long": "weakens the joist",
    "wall-edge.near": "a screw reaches the cable",
    "wall-edge.before": "a screw reaches the cable",
    "joist-cover.out": "a nail reaches the cable",
    "joist-hole-edge.out": "carries the load",
    "stud-cover.out": "a screw reaches the cable",
    "stud-hole-edge.out": "splits under load",
    "stud-cover.thin": "a screw reaches the cable",
    "stud-cover.notch": "a screw reaches the cable",
    "stud-hole-size.large": "weakens the stud",
    "stud-hole-edge.near": "splits under load",
    "stud-notch-depth.deep": "weakens the stud",
    "stud-notch-gap.close": "one weak place",
    "stud-notch-gap.overlap": "one weak place",
    "run-cover.thin": "reaches the cable",
    "run-cover.out": "its nails reach the cable",
    "run-cover.on-edge": "straight into the cable",
    "run-on-joist.off": "nothing to be clipped to",
    "fixing.avoid": "may meet a live cable",
    "fixing.off": "No wall is there to hold it",
    "fixing.opening": "No wall is there to hold it",
}


@pytest.mark.parametrize(("outcome", "finding"), failing())
def test_a_failure_tells_why_it_matters(outcome: str, finding: Finding) -> None:
    assert HAZARDS[outcome] in finding.text


def test_every_hazard_is_tried() -> None:
    assert set(HAZARDS) == {outcome for outcome, finding in said() if finding.status == "fail"}


def test_a_measured_value_never_reads_like_its_limit() -> None:
    near = judged(joist(holes=[{"diameter": 50.002}]))
    finding = next(one for one in near.failures if one.rule == "joist-hole-size")
    assert "50.002 mm" in finding.text
    assert "limit is 50 mm" in finding.text


def test_many_legs_are_named_by_number() -> None:
    missing = next(
        finding
        for outcome, finding in said()
        if outcome == "wall-rcd.missing" and len(finding.where.legs) > 1
    )
    assert missing.text.startswith("On legs 1, 3 and 5 the cable lies")


def test_accessories_that_were_missed_are_named() -> None:
    sockets = [accessory("S1", 1200, 450), accessory("S2", 3000, 450)]
    verdict = judged(one_route(UP, joins=["S1", "S2"], accessories=sockets))
    finding = next(one for one in verdict.failures if one.rule == "route-joins")
    assert finding.reason == "does not reach S2"
    assert "1,727 mm" in finding.text
