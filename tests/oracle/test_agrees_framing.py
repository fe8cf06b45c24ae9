"""The engine agrees with the second computation on studs, on joists in the United States, and on runs."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

import pytest

from tests.oracle.draw_framing import draw_american, draw_runs
from tests.oracle.framing import Told, american_joist, american_stud, cable_run
from zonelib import Pack, judge, load_pack
from zonelib.site.load import case_from_data

COUNT = 400


def told_by_the_engine(data: dict[str, Any], pack: Pack | None = None) -> Told:
    pack = pack or load_pack(data["pack"])
    verdict = judge(case_from_data(data, pack.vocabulary), pack)
    return {(one.rule, one.subject, one.where.other): str(one.status) for one in verdict.findings}


def american(seed: int) -> tuple[dict[str, Any], Told]:
    data = draw_american(Random(seed))
    return data, american_joist(data["joists"][0]) | american_stud(data["studs"][0])


def runs(seed: int, country: str) -> tuple[dict[str, Any], Told]:
    data = draw_runs(Random(seed), country)
    (joist,) = data["joists"]
    told: Told = {("joist-kind", "J", None): "not-applicable"}
    for run in data["runs"]:
        told |= cable_run(joist, run, country)
    return data, told


def test_on_joists_and_studs_of_the_united_states() -> None:
    for seed in range(COUNT):
        data, told = american(seed)
        assert told_by_the_engine(data) == told, data


@pytest.mark.parametrize("country", ["uk", "us"])
def test_on_cables_along_joists(country: str) -> None:
    for seed in range(COUNT):
        data, told = runs(seed, country)
        assert told_by_the_engine(data) == told, data


# Every limit of the pack's timber tables, made narrower by a hair: the comparison would notice.
MOVED = {
    "joists.cover": 32.05, "joists.run_cover": 32.05,
    "joists.hole.diameter": 0.3331, "joists.hole.edge": 51.05,
    "joists.hole.clear_of_holes": 51.05, "joists.notch.depth": 0.1664, "joists.notch.end_depth": 0.2498,
    "joists.notch.length": 0.3331, "joists.notch.to": 0.3333, "joists.notch.clear_of_holes": 51.05,
    "joists.gaps": "along-span", "studs.cover": 32.05, "studs.edge": 16.05, "studs.clear_of_notches": 0.05,
    "studs.bearing.hole": 0.3997, "studs.bearing.notch": 0.2497, "studs.other.hole": 0.5997,
    "studs.other.notch": 0.3997, "low_voltage_counts": True,
}  # fmt: skip


@pytest.mark.parametrize(("path", "value"), MOVED.items(), ids=MOVED)
def test_a_limit_moved_by_a_hair_is_noticed(path: str, value: object) -> None:
    data = load_pack("us").model_dump(mode="json", by_alias=True)
    *tables, key = path.split(".")
    table = data
    for name in tables:
        table = table[name]
    assert table[key] != value
    table[key] = value
    moved = Pack.model_validate(data)
    cases = (case for seed in range(COUNT) for case in (american(seed), runs(seed, "us")))
    assert any(told_by_the_engine(case, moved) != told for case, told in cases)


def test_the_random_cases_bring_every_rule_to_both_ends() -> None:
    seen = Counter(
        (rule, status) for seed in range(COUNT) for (rule, *_), status in american(seed)[1].items()
    )
    once = {"joist-kind", "joist-hole-position", "joist-hole-centre", "joist-notch-edge"}
    due = {(rule, status) for rule, _ in seen if rule not in once for status in ("pass", "fail")}
    for country in ("uk", "us"):
        found = Counter(
            (rule, status) for seed in range(COUNT) for (rule, *_), status in runs(seed, country)[1].items()
        )
        seen += found
        due |= {("run-cover", status) for status in ("pass", "fail", "caution")}
        due |= {("run-on-joist", status) for status in ("pass", "fail")}
    assert {pair for pair in due if seen[pair] < 10} == set()
